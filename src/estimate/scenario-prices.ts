import type { Job } from './bed.ts'
import { DRAWS, type Draws } from './draws.ts'
import type { RateTable } from './rate-table.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { extraPrices, type Rate, rateOf, type ScenarioExtras, scenarioExtras } from './scenario-extras.ts'
import { travelCharge } from './travel.ts'

/** What of a price stays the same in every scenario, as numbers. */
export interface Pricing {
  tiers: number[]
  /** Of each column of rates but the first, what the cheapest finish of the table costs there, draw by draw. */
  fillers: Float64Array[]
  travel: number
  minimum: number
  extras: ScenarioExtras
}

export function pricingOf(job: Job, table: RateTable, draws: Draws): Pricing {
  return {
    tiers: table.tiers.map(Number),
    fillers: table.tiers.map((_, index) => cheapest(table, index + 1, draws)),
    travel: Number(travelCharge(job.postcode, table) ?? 0),
    minimum: Number(table.minimumCharge),
    extras: scenarioExtras(job, table),
  }
}

function cheapest(table: RateTable, column: number, draws: Draws): Float64Array {
  const lowest = new Float64Array(DRAWS).fill(Number.POSITIVE_INFINITY)
  for (const { rates } of table.finishes) {
    const { lower, gap } = rateOf(rates[column]!)
    for (let draw = 0; draw < DRAWS; draw++) {
      lowest[draw] = Math.min(lowest[draw]!, lower + gap * draws.rate[draw]!)
    }
  }
  return lowest
}

/** The price of every scenario in cents, smallest first. */
export function scenarioPrices(
  finishes: ScenarioFinish[],
  pricing: Pricing,
  draws: Draws,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
): Float64Array {
  const volumes = finishes.map(volumesOf)
  const rates = finishes.map(({ finish }) => finish.rates.map(rate => rateOf(rate)))
  const extra = extraPrices(pricing.extras, finishes, draws, volumesOf)
  const prices = new Float64Array(DRAWS)
  for (let draw = 0; draw < DRAWS; draw++) {
    const installed = installedPrice(volumes, rates, pricing, draw, draws.rate[draw]!)
    const price = Math.max(installed + extra[draw]! + pricing.travel, pricing.minimum)
    prices[draw] = Math.round(price * 100)
  }
  return prices.sort()
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
