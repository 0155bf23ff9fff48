import { Decimal, one, roundToCent } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { newestMethod } from '../job/methods/all-methods.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { points, SCENARIOS } from './points.ts'
import { type Change, type ScenarioFinish, scenarioFinishes, withChange } from './scenario-beds.ts'
import { pricingOf, rankedPrices } from './scenario-prices.ts'
import { depthsOver, finishVolumes, slowedVolumes } from './scenario-volumes.ts'

/** The two prices the promise names, in cents, before likely stretches them and the step rounds them. */
export interface Spread {
  low: number
  high: number
}

/** Gives the spread of a job, as told or with one figure changed; about, where that will do to compare changes. */
export type SpreadOf = (change?: Change, about?: boolean) => Spread

/**
 * Gives the spreads of a job; what doesn't change is worked out once. taxFactor is what a tax that the range has in it makes
 * of a price.
 */
export function spreadsOf(
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
  taxFactor = 1,
  method = newestMethod,
): SpreadOf {
  const made = points()
  const depthsOf = depthsOver(made)
  const pricing = pricingOf(job, quantities, table, made, taxFactor)
  const told = scenarioFinishes(job, quantities, table, method)
  const left = outside(table.promise)
  const known = new Map(told.map(finish => [finish, finishVolumes(finish, made, depthsOf)]))
  const inPlace = (finish: ScenarioFinish) => known.get(finish) ?? finishVolumes(finish, made, depthsOf)
  const slowed = (finish: ScenarioFinish) => slowedVolumes(finish, inPlace(finish), made, depthsOf)
  return (change, about) => {
    const finishes = change ? withChange(told, change) : told
    const priceAt = rankedPrices(finishes, pricing, made, { inPlace, slowed }, about)
    const low = priceAt(left)
    return { low, high: priceAt(SCENARIOS - 1 - left, left) }
  }
}

/** How many scenarios are left out at either end: n(1 − P) ÷ 2 rounded down. */
export function outside(promise: string): number {
  return new Decimal(1).minus(promise).times(SCENARIOS).div(2).floor().toNumber()
}

// A tax of each scenario is rounded once, that of likely may be line by line.
const CENT = '0.01'

/**
 * The range as shown: stretched to include likely, rounded outwards to the step, never under the minimum; where all of it
 * is the minimum, that one figure.
 */
export function shownRange(
  spread: Spread,
  likely: Decimal,
  table: RateTable,
  taxFactor: Decimal = one,
  { oneAtMinimum } = newestMethod,
): { low: string; high: string } {
  const low = Decimal.min(new Decimal(spread.low).div(100), likely)
  const high = Decimal.max(new Decimal(spread.high).div(100), likely)
  const stepsDown = low.div(table.step).floor().times(table.step)
  // A tax rounded line by line may bring likely a cent under the minimum with its tax.
  const minimum = Decimal.min(roundToCent(taxFactor.times(table.minimumCharge)), likely)
  if (oneAtMinimum && high.lte(minimum.plus(CENT))) return { low: likely.toFixed(2), high: likely.toFixed(2) }
  const stepsUp = high.div(table.step).ceil().times(table.step)
  return { low: Decimal.max(stepsDown, minimum).toFixed(2), high: stepsUp.toFixed(2) }
}
