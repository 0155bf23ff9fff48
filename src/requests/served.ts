import type { RateTable } from '../estimate/table/rate-table.ts'
import { plainPostcode, travelCharge } from '../estimate/table/travel.ts'

/** Whether a ZIP or postcode is one that isn’t served; of one that is still being typed nothing is said. */
export function isOutside(postcode: string, table: RateTable): boolean {
  const plain = plainPostcode(postcode)
  const whole = table.units === 'us' && /^\d+$/.test(plain) ? 5 : 4
  return plain.length >= whole && travelCharge(postcode, table) === null
}
