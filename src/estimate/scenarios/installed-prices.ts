import type { Finish, RateTable } from '../table/rate-table.ts'
import { ratePerBulk } from '../table/sold.ts'
import type { Points } from './points.ts'
import { rateOf } from './rates.ts'

/**
 * What finishes at installed rates come to in every scenario, in money, for their volumes in place, in yd³|m³ and in
 * the order of the finishes. What it gives is written over when it is asked again.
 */
export type InstalledPrices = (volumes: Float64Array[]) => Float64Array

/** Over the job's own size and every larger one the least is taken: bigger never costs less. */
export function installedPrices(finishes: Finish[], table: RateTable, points: Points): InstalledPrices {
  const tiers = table.tiers.map(Number)
  const [count, stands] = [finishes.length, points.rate]
  const rates = flatRates(finishes, tiers.length + 1, table)
  const fillers = tiers.map((_, index) => cheapest(table, index + 1, points))
  const prices = new Float64Array(points.count)
  // The volumes of a scenario side by side, as all of them are gone through some dozen times for each job.
  const scenario = new Float64Array(count * points.count)
  const placed: Float64Array[] = []
  return volumes => {
    if (count === 0) return prices
    let changed = false
    for (const [index, column] of volumes.entries()) {
      if (placed[index] === column) continue
      place(column, index, count, scenario)
      placed[index] = column
      changed = true
    }
    if (!changed) return prices
    for (let point = 0; point < points.count; point++) {
      const first = point * count
      let volume = 0
      for (let index = 0; index < count; index++) volume += scenario[first + index]!
      let least = Number.POSITIVE_INFINITY
      for (let column = tiers.length; column >= 0; column--) {
        const from = column === 0 ? 0 : tiers[column - 1]!
        let price = 0
        let at = column * count * 2
        for (let index = 0; index < count; index++) {
          price += scenario[first + index]! * (rates[at]! + rates[at + 1]! * stands[point]!)
          at += 2
        }
        if (from > volume) price += (from - volume) * fillers[column - 1]![point]!
        if (price < least) least = price
        if (from <= volume) break
      }
      prices[point] = least
    }
    return prices
  }
}

// The lower rate and the gap to the upper of every finish, column by column.
function flatRates(finishes: Finish[], columns: number, table: RateTable): Float64Array {
  const all = Array.from({ length: columns }, (_, column) =>
    finishes.map(finish => rateOf(ratePerBulk(finish, column, table))),
  )
  return Float64Array.from(all.flat().flatMap(({ lower, gap }) => [lower, gap]))
}

function place(column: Float64Array, index: number, count: number, into: Float64Array): void {
  for (let point = 0; point < column.length; point++) into[point * count + index] = column[point]!
}

/** Point by point, what the cheapest finish of the table costs in a column of rates. */
function cheapest(table: RateTable, column: number, points: Points): Float64Array {
  const lowest = new Float64Array(points.count).fill(Number.POSITIVE_INFINITY)
  for (const finish of table.finishes) {
    if (finish.pricedBy === 'cost') continue
    const { lower, gap } = rateOf(ratePerBulk(finish, column, table))
    for (let point = 0; point < points.count; point++) {
      lowest[point] = Math.min(lowest[point]!, lower + gap * points.rate[point]!)
    }
  }
  return lowest
}
