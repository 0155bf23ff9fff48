import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { priceFactor } from '../price/cost-plus.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type InstalledPrices, installedPrices } from './installed-prices.ts'
import type { Points } from './points.ts'
import { type AtRank, type Ranking, rankedSums, rankedValues } from './ranked.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { type ComingPrices, comingPrices } from './scenario-coming.ts'
import {
  type Known,
  type PricesByCost,
  pricesByCost,
  setUpsByCost,
  type VolumesOf,
} from './scenario-costs.ts'
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

/** `told` is what is known already of the finishes by their cost as they were told. */
export function pricingOf(
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
  points: Points,
  taxFactor: number,
  told?: Known,
): Pricing {
  const finishes = quantities.finishes.map(({ finish }) => finish)
  const byRate = finishes.filter(({ pricedBy }) => pricedBy === 'rate')
  const byCost = finishes.filter(({ pricedBy }) => pricedBy === 'cost')
  return {
    installed: installedPrices(byRate, table, points),
    byCost:
      byCost.length > 0
        ? {
            prices: pricesByCost(byCost, table, points, told),
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

/** The prices of all scenarios: by their rank in cents, and nearly what each is, in money, by which they may be told apart. */
export interface RankedPrices extends Ranking {
  nearly: () => Float64Array
}

/**
 * The prices of all scenarios; about, where that will do to compare changes. What is done to a price in the end keeps their
 * order, so it is done to the one that is asked for.
 */
export function rankedPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
  about = false,
): RankedPrices {
  const { minimum, taxFactor } = pricing
  const { at, atLeast, atMost, nearly } = withoutMinimum(finishes, pricing, points, volumesOf, about)
  const inCents =
    (of: AtRank): AtRank =>
    (rank, from) =>
      Math.round(Math.round(Math.max(of(rank, from), minimum) * 100) * taxFactor)
  return { at: inCents(at), atLeast: inCents(atLeast), atMost: inCents(atMost), nearly }
}

// Installed prices, extras, travel, the finishes priced by their cost, and what setting up for these and coming there cost.
function withoutMinimum(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
  about: boolean,
): RankedPrices {
  const byRate = finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const installed = pricing.installed(byRate.map(volumesOf.inPlace))
  const prices = extraPrices(pricing.extras, finishes, points, volumesOf.inPlace)
  pricing.purchases?.(prices, finishes, points, volumesOf.inPlace)
  const { travel } = pricing
  if (pricing.byCost === null) {
    for (let point = 0; point < points.count; point++) prices[point]! += installed[point]! + travel
    return { ...rankedValues(prices), nearly: () => prices }
  }
  const { prices: pricesOf, setUps, factor } = pricing.byCost
  const byCost = finishes.filter(({ finish }) => finish.pricedBy === 'cost')
  const { sure, riding } = pricesOf(byCost, volumesOf, about)
  for (let point = 0; point < points.count; point++)
    prices[point]! += installed[point]! + sure[point]! * factor + setUps[point]! + travel
  const coming = pricing.coming?.(finishes, volumesOf)
  if (coming) for (let point = 0; point < points.count; point++) prices[point]! += coming[point]!
  if (!riding) return { ...rankedValues(prices), nearly: () => prices }
  const middles = () =>
    prices.map((price, point) => price + (factor * (riding.atLeast[point]! + riding.atMost[point]!)) / 2)
  return { ...rankedSums(prices, factor, riding), nearly: middles }
}
