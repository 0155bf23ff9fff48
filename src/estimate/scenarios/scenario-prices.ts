import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type InstalledPrices, installedPrices } from './installed-prices.ts'
import { type Points, SCENARIOS } from './points.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { type ComingPrices, comingPrices } from './scenario-coming.ts'
import { type PricesByCost, pricesByCost, setUpsByCost, type VolumesOf } from './scenario-costs.ts'
import { extraPrices, type ScenarioExtras, scenarioExtras } from './scenario-extras.ts'
import { type AddPurchases, extraPurchases } from './scenario-purchases.ts'

/** What of a price stays the same in every scenario, as numbers. */
export interface Pricing {
  installed: InstalledPrices
  /** What the finishes that are priced by their cost come to, and setting up for them; null without any. */
  byCost: { prices: PricesByCost; setUps: Float64Array } | null
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
        ? { prices: pricesByCost(byCost, table, points), setUps: setUpsByCost(table, points) }
        : null,
    coming: byCost.length > 0 ? comingPrices(job, quantities, table, points) : null,
    travel: Number(travelCharge(job.postcode, table) ?? 0),
    minimum: Number(table.minimumCharge),
    extras: scenarioExtras(job, table, points),
    purchases: extraPurchases(job, quantities, table),
    taxFactor,
  }
}

/** The price of every scenario in cents; about, where that will do to compare changes. */
export function scenarioPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  points: Points,
  volumesOf: VolumesOf,
  about = false,
): Float64Array {
  const { travel, minimum, taxFactor } = pricing
  const byRate = finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const installed = pricing.installed(byRate.map(volumesOf.inPlace))
  const prices = otherPrices(finishes, pricing, points, volumesOf, about)
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
  about: boolean,
): Float64Array {
  const prices = extraPrices(pricing.extras, finishes, points, volumesOf.inPlace)
  pricing.purchases?.(prices, finishes, points, volumesOf.inPlace)
  if (pricing.byCost === null) return prices
  const { prices: pricesOf, setUps } = pricing.byCost
  const byCost = pricesOf(
    finishes.filter(({ finish }) => finish.pricedBy === 'cost'),
    volumesOf,
    about,
  )
  for (const part of [byCost, setUps, pricing.coming?.(finishes, volumesOf)]) {
    if (!part) continue
    for (let point = 0; point < SCENARIOS; point++) prices[point]! += part[point]!
  }
  return prices
}
