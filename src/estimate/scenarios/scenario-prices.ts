import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type InstalledPrices, installedPrices } from './installed-prices.ts'
import { type Points, SCENARIOS } from './points.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { type ComingPrices, comingPrices } from './scenario-coming.ts'
import { type PriceByCost, pricesByCost, setUpsByCost, type VolumesOf } from './scenario-costs.ts'
import { extraPrices, type ScenarioExtras, scenarioExtras } from './scenario-extras.ts'

/** What of a price stays the same in every scenario, as numbers. */
export interface Pricing {
  installed: InstalledPrices
  /** By slug, the finishes that are priced by their cost. */
  byCost: Map<string, PriceByCost>
  setUps: Float64Array | null
  /** Null too where it doesn't hang on how long the beds take. */
  coming: ComingPrices | null
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
  const finishes = quantities.finishes.map(({ finish }) => finish)
  const byRate = finishes.filter(({ pricedBy }) => pricedBy === 'rate')
  const byCost = finishes.filter(({ pricedBy }) => pricedBy === 'cost')
  return {
    installed: installedPrices(byRate, table, points),
    byCost: new Map(byCost.map(finish => [finish.slug, pricesByCost(finish, table, points)])),
    setUps: byCost.length > 0 ? setUpsByCost(table, points) : null,
    coming: byCost.length > 0 ? comingPrices(job, quantities, table, points) : null,
    travel: Number(travelCharge(job.postcode, table) ?? 0),
    minimum: Number(table.minimumCharge),
    extras: scenarioExtras(job, table, points),
    taxFactor,
  }
}

/** The price of every scenario in cents. */
export function scenarioPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
): Float64Array {
  const { travel, minimum, taxFactor } = pricing
  const byRate = finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const installed = pricing.installed(byRate.map(volumesOf.inPlace))
  const prices = otherPrices(finishes, pricing, points, volumesOf)
  for (let point = 0; point < SCENARIOS; point++) {
    const price = Math.max(installed[point]! + prices[point]! + travel, minimum)
    prices[point] = Math.round(Math.round(price * 100) * taxFactor)
  }
  return prices
}

// Extras, the finishes priced by their cost, and what setting up for these and coming there cost.
function otherPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
): Float64Array {
  const prices = extraPrices(pricing.extras, finishes, points, volumesOf.inPlace)
  const parts = finishes.flatMap(one => pricing.byCost.get(one.finish.slug)?.(one, volumesOf) ?? [])
  const coming = pricing.coming?.(finishes, volumesOf)
  for (const part of [...parts, pricing.setUps, coming]) {
    if (!part) continue
    for (let point = 0; point < SCENARIOS; point++) prices[point]! += part[point]!
  }
  return prices
}
