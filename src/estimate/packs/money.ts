import { type Decimal, middleOf, zero } from '../../lib/decimal.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import type { RateTable } from '../table/rate-table.ts'

/** The share that tax puts on what is bought, where it isn't given back. */
export function purchaseTaxRate({ tax }: RateTable): string {
  return tax === null || tax.purchasesGivenBack ? '0' : tax.onPurchases
}

/** What a trip to the yard costs: its labor hours, at the middle, and the truck. */
export function tripCost(table: RateTable): Decimal {
  const hour = laborHourCost(table) ?? zero
  return middleOf(table.labor.trip).times(hour).plus(table.costs.truckPerTrip)
}

/** What goods and their delivery come to in money, with the tax on them, as numbers. */
export type MoneyOf = (goods: number, delivery: number) => number

/** Money as it is, for scenarios. */
export function moneyIn(table: RateTable): MoneyOf {
  const taxed = 1 + Number(purchaseTaxRate(table))
  return (goods, delivery) => (goods + delivery) * taxed
}

/** Money in whole cents, as it is paid. */
export function centsIn(table: RateTable): MoneyOf {
  const rate = Number(purchaseTaxRate(table))
  // Half a cent goes up, whatever a float makes of it.
  const whole = (amount: number) => Math.floor(amount * 100 + 0.5 + 1e-6) / 100
  return (goods, delivery) => whole(goods) + delivery + whole((whole(goods) + delivery) * rate)
}
