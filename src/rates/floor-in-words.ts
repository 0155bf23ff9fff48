import type { Earnings } from '../estimate/price/cost.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'

/** A floor of the owner's that a job falls under, in a sentence; the table must have that floor. */
export function floorInWords(floor: keyof Earnings, { floors, currency }: RateTable): string {
  if (floor === 'margin')
    return `The margin is below your minimum of ${new Decimal(floors.margin!).times(100).toFixed(1)}%.`
  return `A labor hour earns less than your minimum of ${moneyInWords(cents(floors.payPerLaborHour!), currency, 'en')}.`
}
