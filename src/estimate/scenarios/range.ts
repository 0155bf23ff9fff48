import { Decimal, one, roundToCent } from '../../lib/decimal.ts'
import { lazily, once } from '../../lib/once.ts'
import type { Job } from '../job/bed.ts'
import { newestMethod } from '../job/methods/all-methods.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { type Alike, alikeIn } from './alike.ts'
import { type Points, points, pointsOf, SCENARIOS } from './points.ts'
import { ranked } from './ranked.ts'
import { type Change, type ScenarioFinish, scenarioFinishes, withChange } from './scenario-beds.ts'
import type { Known } from './scenario-costs.ts'
import { pricingOf, type RankedPrices, rankedPrices } from './scenario-prices.ts'
import { depthsOver, finishVolumes, slowedVolumes } from './scenario-volumes.ts'

/** The two prices the promise names, in cents, before likely stretches them and the step rounds them. */
export interface Spread {
  low: number
  high: number
}

/**
 * Gives the spread of a job, as told or with one figure changed: `about` where that will do to compare changes, and `within`
 * which no wider part of that it lies, sooner.
 */
export interface SpreadOf {
  (change?: Change): Spread
  about(change: Change): Spread
  within(change: Change): Spread
  /** Whether two changes leave the same. */
  alike: Alike
}

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
  const told = scenarioFinishes(job, quantities, table, method)
  const left = outside(table.promise)
  const over = (some: Points, known?: Known) => {
    const depthsOf = depthsOver(some)
    const pricing = pricingOf(job, quantities, table, some, taxFactor, known)
    const inPlace = once((finish: ScenarioFinish) => finishVolumes(finish, some, depthsOf))
    const slowed = once((finish: ScenarioFinish) => slowedVolumes(finish, inPlace(finish), some, depthsOf))
    const pricesOf = (finishes: ScenarioFinish[], about?: boolean) =>
      rankedPrices(finishes, pricing, some, { inPlace, slowed }, about)
    return { count: some.count, pricing, pricesOf }
  }
  const all = over(points())
  const prices = all.pricesOf(told)
  const outermost = lazily(() => {
    const scenarios = outermostOf(prices.nearly(), left)
    return over(pointsOf(scenarios, points()), all.pricing.byCost?.prices.firstOf(scenarios))
  })
  const spread = ({ at }: RankedPrices) => {
    const low = at(left)
    return { low, high: at(SCENARIOS - 1 - left, left) }
  }
  const spreadOf = (change?: Change) => spread(change ? all.pricesOf(withChange(told, change)) : prices)
  return Object.assign(spreadOf, {
    alike: alikeIn(job, told),
    about: (change: Change) => spread(all.pricesOf(withChange(told, change), true)),
    within(change: Change) {
      const { count, pricesOf } = outermost()
      const { atMost, atLeast } = pricesOf(withChange(told, change), true)
      return { low: atMost(left), high: atLeast(count - 1 - left) }
    },
  })
}

// So many more at either end than are left out: by them a change hardly looks smaller than it is.
const MORE_OUTSIDE = 20

/** The scenarios of the lowest and the highest prices, those that are left out and some more. */
function outermostOf(prices: Float64Array, left: number): Uint16Array {
  const [sorted, rank] = [prices.slice(), Math.min(left + MORE_OUTSIDE, SCENARIOS - 1)]
  const [low, high] = [ranked(sorted, rank), ranked(sorted, SCENARIOS - 1 - rank)]
  const found: number[] = []
  for (let point = 0; point < SCENARIOS; point++)
    if (prices[point]! <= low || prices[point]! >= high) found.push(point)
  return Uint16Array.from(found)
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
