import { Decimal, middleOf, sumOf } from '../../lib/decimal.ts'
import type { RateTable } from '../table/rate-table.ts'
import { ratePerBulk } from '../table/sold.ts'
import { unitSystem } from '../units/units.ts'
import { type Factors, factor, sumOfProducts, workedOut } from './factors.ts'
import type { FinishQuantities, JobQuantities } from './quantities.ts'
import { amountAtRate } from './sold-factors.ts'

/**
 * The size of a job, by which its rates are chosen, in ft³|m³: the volume in place of the finishes at installed rates.
 * What is priced by its cost doesn't count: else a little more of it could lower the rates of all the rest.
 */
function jobSize({ finishes }: JobQuantities): Decimal {
  return sumOf(byRate(finishes).map(({ inPlace }) => inPlace))
}

/** Which rate column the job has of its own. */
export function tierOf(quantities: JobQuantities, table: RateTable): number {
  if (table.tiers.length === 0) return 0
  const size = jobSize(quantities).div(unitSystem(table.units).volumesPerBulk)
  return table.tiers.filter(from => size.gte(from)).length
}

/**
 * How what a larger size's rates take off comes about; null where they take off nothing. Bigger never costs less: a job
 * may be priced as the next size up where that comes to less than `own`, its price at its own size. What is missing to
 * that size counts at the cheapest finish of the table, the job's own or not: else a bed of it added would lower the price.
 */
export function sizeReduction(own: Decimal, quantities: JobQuantities, table: RateTable): Factors | null {
  const larger = table.tiers.slice(tierOf(quantities, table))
  const finishes = byRate(quantities.finishes)
  if (larger.length === 0 || finishes.length === 0) return null
  const prices = larger.map(from => {
    const factors = pricedFrom(from, finishes, jobSize(quantities), table)
    return { factors, price: workedOut(factors) }
  })
  const { factors, price } = prices.reduce((least, one) => (one.price.lt(least.price) ? one : least))
  if (price.gte(own)) return null
  return sumOfProducts([factor(price, 'money', { from: factors })], [factor(own.negated(), 'money')])
}

// A job priced as if it were of the size from which a column of rates holds.
function pricedFrom(from: string, finishes: FinishQuantities[], size: Decimal, table: RateTable): Factors {
  const { bulk, volumesPerBulk: per } = unitSystem(table.units)
  const column = table.tiers.indexOf(from) + 1
  const offers = byRate(table.finishes.map(finish => ({ finish })))
  const lowest = Decimal.min(...offers.map(({ finish }) => middleOf(ratePerBulk(finish, column, table))))
  const short = per.times(from).minus(size)
  return sumOfProducts(
    ...finishes.map(({ finish, inPlace }) => amountAtRate(inPlace, finish, column, table)),
    [factor(short, bulk, { per }), factor(lowest, 'money')],
  )
}

function byRate<T extends Pick<FinishQuantities, 'finish'>>(finishes: T[]): T[] {
  return finishes.filter(({ finish }) => finish.pricedBy === 'rate')
}
