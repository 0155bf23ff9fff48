import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { priceFactor } from '../price/cost-plus.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type InstalledPrices, installedPrices } from './installed-prices.ts'
import type { Points } from './points.ts'
import { type AtRank, ranked, rankedSums } from './ranked.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { type ComingPrices, comingPrices } from './scenario-coming.ts'
import { type PricesByCost, pricesByCost, setUpsByCost, type VolumesOf } from './scenario-costs.ts'
import { extraPrices, type ScenarioExtras, scenarioExtras } from './scenario-extras.ts'
import { type AddPurchases, extraPurchases } from './scenario-purchases.ts'

/** What of a price stays the same in every scenario, as numbers. */
export interface Pricing {
  installed: InstalledPrices
  /** What the finishes that are priced by their cost come to, what is put on it, and setting up for them; null without any. */
  byCost: { prices: PricesByCost; factor: number; setUps: Float64Array } | null
  /** Null too where it doesn't hang on how long the beds take. */
  coming: ComingPrices | null
  travel: number
  minimum: number
  extras: ScenarioExtras
  /** Null where nothing is bought for extras by their cost. */
  purchases: AddPurchases | null
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
    byCost:
      byCost.length > 0
        ? {
            prices: pricesByCost(byCost, table, points),
            factor: priceFactor(table).toNumber(),
            setUps: setUpsByCost(table, points),
          }
        : null,
    coming: byCost.length > 0 ? comingPrices(job, quantities, table, points) : null,
    travel: Number(travelCharge(job.postcode, table) ?? 0),
    minimum: Number(table.minimumCharge),
    extras: scenarioExtras(job, table, points),
    purchases: extraPurchases(job, quantities, table),
    taxFactor,
  }
}

/**
 * The prices of all scenarios by their rank, in cents; about, where that will do to compare changes. What is done to a price in the
 * end keeps their order, so it is done to the one that is asked for.
 */
export function rankedPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
  about = false,
): AtRank {
  const { minimum, taxFactor } = pricing
  const at = atRank(finishes, pricing, points, volumesOf, about)
  return (rank, from) => Math.round(Math.round(Math.max(at(rank, from), minimum) * 100) * taxFactor)
}

// Installed prices, extras, travel, the finishes priced by their cost, and what setting up for these and coming there cost.
function atRank(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
  about: boolean,
): AtRank {
  const byRate = finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const installed = pricing.installed(byRate.map(volumesOf.inPlace))
  const prices = extraPrices(pricing.extras, finishes, points, volumesOf.inPlace)
  pricing.purchases?.(prices, finishes, points, volumesOf.inPlace)
  const { travel } = pricing
  if (pricing.byCost === null) {
    for (let point = 0; point < points.count; point++) prices[point]! += installed[point]! + travel
    return (rank, from) => ranked(prices, rank, from)
  }
  const { prices: pricesOf, setUps, factor } = pricing.byCost
  const byCost = finishes.filter(({ finish }) => finish.pricedBy === 'cost')
  const { sure, riding } = pricesOf(byCost, volumesOf, about)
  for (let point = 0; point < points.count; point++)
    prices[point]! += installed[point]! + sure[point]! * factor + setUps[point]! + travel
  const coming = pricing.coming?.(finishes, volumesOf)
  if (coming) for (let point = 0; point < points.count; point++) prices[point]! += coming[point]!
  return riding ? rankedSums(prices, factor, riding) : (rank, from) => ranked(prices, rank, from)
}
