import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { DRAWS, type Draws } from './draws.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { type PriceByCost, pricesByCost, setUpsByCost, type VolumesOf } from './scenario-costs.ts'
import { extraPrices, type Rate, rateOf, type ScenarioExtras, scenarioExtras } from './scenario-extras.ts'

/** What of a price stays the same in every scenario, as numbers. */
export interface Pricing {
  tiers: number[]
  /** Of each column of rates but the first, what the cheapest finish of the table costs there, draw by draw. */
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
  draws: Draws,
  taxFactor: number,
): Pricing {
  const byCost = quantities.finishes.filter(({ finish }) => finish.pricedBy === 'cost')
  return {
    tiers: table.tiers.map(Number),
    fillers: table.tiers.map((_, index) => cheapest(table, index + 1, draws)),
    byCost: new Map(byCost.map(one => [one.finish.slug, pricesByCost(one.finish, table, draws)])),
    setUps: byCost.length > 0 ? setUpsByCost(table, draws) : null,
    travel: Number(travelCharge(job.postcode, table) ?? 0),
    minimum: Number(table.minimumCharge),
    extras: scenarioExtras(job, table),
    taxFactor,
  }
}

function cheapest(table: RateTable, column: number, draws: Draws): Float64Array {
  const lowest = new Float64Array(DRAWS).fill(Number.POSITIVE_INFINITY)
  for (const { rates, pricedBy } of table.finishes) {
    if (pricedBy === 'cost') continue
    const { lower, gap } = rateOf(rates[column]!)
    for (let draw = 0; draw < DRAWS; draw++) {
      lowest[draw] = Math.min(lowest[draw]!, lower + gap * draws.rate[draw]!)
    }
  }
  return lowest
}

/** The price of every scenario in cents. */
export function scenarioPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  draws: Draws,
  volumesOf: VolumesOf,
): Float64Array {
  const byRate = finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const volumes = byRate.map(volumesOf.inPlace)
  const rates = byRate.map(({ finish }) => finish.rates.map(rate => rateOf(rate)))
  const others = otherPrices(finishes, pricing, draws, volumesOf)
  const prices = new Float64Array(DRAWS)
  for (let draw = 0; draw < DRAWS; draw++) {
    const installed =
      volumes.length > 0 ? installedPrice(volumes, rates, pricing, draw, draws.rate[draw]!) : 0
    const price = Math.max(installed + others[draw]! + pricing.travel, pricing.minimum)
    prices[draw] = Math.round(Math.round(price * 100) * pricing.taxFactor)
  }
  return prices
}

// Extras, the finishes priced by their cost, and what setting up for these costs.
function otherPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  draws: Draws,
  volumesOf: VolumesOf,
): Float64Array {
  const prices = extraPrices(pricing.extras, finishes, draws, volumesOf.inPlace)
  const parts = finishes.flatMap(one => pricing.byCost.get(one.finish.slug)?.(one, volumesOf) ?? [])
  for (const part of pricing.setUps ? [...parts, pricing.setUps] : parts) {
    for (let draw = 0; draw < DRAWS; draw++) prices[draw]! += part[draw]!
  }
  return prices
}

// Over the job's own size and every larger one, the least: bigger never costs less.
function installedPrice(
  volumes: Float64Array[],
  rates: Rate[][],
  { tiers, fillers }: Pricing,
  draw: number,
  stand: number,
): number {
  let volume = 0
  for (let index = 0; index < volumes.length; index++) volume += volumes[index]![draw]!
  let least = Number.POSITIVE_INFINITY
  for (let column = tiers.length; column >= 0; column--) {
    const from = column === 0 ? 0 : tiers[column - 1]!
    let price = 0
    for (let index = 0; index < volumes.length; index++) {
      const { lower, gap } = rates[index]![column]!
      price += volumes[index]![draw]! * (lower + gap * stand)
    }
    if (from > volume) price += (from - volume) * fillers[column - 1]![draw]!
    if (price < least) least = price
    if (from <= volume) break
  }
  return least
}
