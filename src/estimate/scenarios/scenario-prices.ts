import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type Points, SCENARIOS } from './points.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { type PriceByCost, pricesByCost, setUpsByCost, type VolumesOf } from './scenario-costs.ts'
import { extraPrices, type Rate, rateOf, type ScenarioExtras, scenarioExtras } from './scenario-extras.ts'

/** What of a price stays the same in every scenario, as numbers. */
export interface Pricing {
  tiers: number[]
  /** Of each column of rates but the first, what the cheapest finish of the table costs there, point by point. */
  fillers: Float64Array[]
  /** By slug, the finishes that are priced by their cost. */
  byCost: Map<string, PriceByCost>
  setUps: Float64Array | null
  travel: number
  minimum: number
  extras: ScenarioExtras
  /** What a tax that the ranges have in them makes of a price. */
  taxFactor: number
}

export function pricingOf(
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
  points: Points,
  taxFactor: number,
): Pricing {
  const byCost = quantities.finishes.filter(({ finish }) => finish.pricedBy === 'cost')
  return {
    tiers: table.tiers.map(Number),
    fillers: table.tiers.map((_, index) => cheapest(table, index + 1, points)),
    byCost: new Map(byCost.map(one => [one.finish.slug, pricesByCost(one.finish, table, points)])),
    setUps: byCost.length > 0 ? setUpsByCost(table, points) : null,
    travel: Number(travelCharge(job.postcode, table) ?? 0),
    minimum: Number(table.minimumCharge),
    extras: scenarioExtras(job, table),
    taxFactor,
  }
}

function cheapest(table: RateTable, column: number, points: Points): Float64Array {
  const lowest = new Float64Array(SCENARIOS).fill(Number.POSITIVE_INFINITY)
  for (const { rates, pricedBy } of table.finishes) {
    if (pricedBy === 'cost') continue
    const { lower, gap } = rateOf(rates[column]!)
    for (let point = 0; point < SCENARIOS; point++) {
      lowest[point] = Math.min(lowest[point]!, lower + gap * points.rate[point]!)
    }
  }
  return lowest
}

/** The price of every scenario in cents. */
export function scenarioPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
): Float64Array {
  const byRate = finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const volumes = byRate.map(volumesOf.inPlace)
  const rates = byRate.map(({ finish }) => finish.rates.map(rate => rateOf(rate)))
  const others = otherPrices(finishes, pricing, points, volumesOf)
  const prices = new Float64Array(SCENARIOS)
  for (let point = 0; point < SCENARIOS; point++) {
    const installed =
      volumes.length > 0 ? installedPrice(volumes, rates, pricing, point, points.rate[point]!) : 0
    const price = Math.max(installed + others[point]! + pricing.travel, pricing.minimum)
    prices[point] = Math.round(Math.round(price * 100) * pricing.taxFactor)
  }
  return prices
}

// Extras, the finishes priced by their cost, and what setting up for these costs.
function otherPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
): Float64Array {
  const prices = extraPrices(pricing.extras, finishes, points, volumesOf.inPlace)
  const parts = finishes.flatMap(one => pricing.byCost.get(one.finish.slug)?.(one, volumesOf) ?? [])
  for (const part of pricing.setUps ? [...parts, pricing.setUps] : parts) {
    for (let point = 0; point < SCENARIOS; point++) prices[point]! += part[point]!
  }
  return prices
}

// Over the job's own size and every larger one, the least: bigger never costs less.
function installedPrice(
  volumes: Float64Array[],
  rates: Rate[][],
  { tiers, fillers }: Pricing,
  point: number,
  stand: number,
): number {
  let volume = 0
  for (let index = 0; index < volumes.length; index++) volume += volumes[index]![point]!
  let least = Number.POSITIVE_INFINITY
  for (let column = tiers.length; column >= 0; column--) {
    const from = column === 0 ? 0 : tiers[column - 1]!
    let price = 0
    for (let index = 0; index < volumes.length; index++) {
      const { lower, gap } = rates[index]![column]!
      price += volumes[index]![point]! * (lower + gap * stand)
    }
    if (from > volume) price += (from - volume) * fillers[column - 1]![point]!
    if (price < least) least = price
    if (from <= volume) break
  }
  return least
}
