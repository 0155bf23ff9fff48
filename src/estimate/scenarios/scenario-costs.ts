import { allowanceOf } from '../job/quantities.ts'
import { crewHourCost } from '../labor/crew-hour.ts'
import { buyerOf } from '../packs/cost-steps.ts'
import { plusFactor } from '../price/cost-plus.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { DRAWS, type Draws } from './draws.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { rateOf } from './scenario-extras.ts'

/** What a finish priced by its cost comes to in every scenario, in money, for what its beds take. */
export type PriceByCost = (finish: ScenarioFinish, volumes: VolumesOf) => Float64Array

/** A finish's volume in every scenario, in yd³|m³: in place, and what would take as long with nothing in the way. */
export interface VolumesOf {
  inPlace: (finish: ScenarioFinish) => Float64Array
  slowed: (finish: ScenarioFinish) => Float64Array
}

/**
 * Prices one finish by its cost: labour stands between its lower and its upper hours where every rate of the scenario
 * does. The same beds are priced once.
 */
export function pricesByCost(finish: Finish, table: RateTable, draws: Draws): PriceByCost {
  const hour = crewHourCost(table)?.toNumber() ?? 0
  const factor = plusFactor(table).toNumber()
  const ordered = 1 + Number(allowanceOf(finish, table))
  const spread = rateOf(table.labour.spread, hour)
  const trip = rateOf(table.labour.trip, hour)
  const perTrip = Number(table.costs.truckPerTrip)
  const costOf = buyerOf(finish, table)
  const price = (inPlace: Float64Array, slowed: Float64Array) => {
    const prices = new Float64Array(DRAWS)
    for (let draw = 0; draw < DRAWS; draw++) {
      const stand = draws.rate[draw]!
      const bought = costOf(inPlace[draw]! * ordered, trip.lower + trip.gap * stand + perTrip)
      prices[draw] = factor * (bought + slowed[draw]! * (spread.lower + spread.gap * stand))
    }
    return prices
  }
  const known = new WeakMap<ScenarioFinish, Float64Array>()
  return (beds, { inPlace, slowed }) => {
    const prices = known.get(beds) ?? price(inPlace(beds), slowed(beds))
    known.set(beds, prices)
    return prices
  }
}

/** Setting up, for a job with a finish priced by its cost, in every scenario. */
export function setUpsByCost(table: RateTable, draws: Draws): Float64Array {
  const hour = crewHourCost(table)?.toNumber() ?? 0
  const setUp = rateOf(table.labour.setUp, hour)
  const factor = plusFactor(table).toNumber()
  const truck = Number(table.costs.truckPerJob)
  return draws.rate.map(stand => factor * (setUp.lower + setUp.gap * stand + truck))
}
