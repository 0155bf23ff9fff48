import { allowanceOf } from '../job/quantities.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { buyerOf } from '../packs/cost-steps.ts'
import { priceFactor } from '../price/cost-plus.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { type Points, SCENARIOS } from './points.ts'
import { rateOf } from './rates.ts'
import type { ScenarioFinish } from './scenario-beds.ts'

/** What a finish priced by its cost comes to in every scenario, in money, for what its beds take. */
export type PriceByCost = (finish: ScenarioFinish, volumes: VolumesOf) => Float64Array

/** A finish's volume in every scenario, in yd³|m³: in place, and what would take as long with nothing in the way. */
export interface VolumesOf {
  inPlace: (finish: ScenarioFinish) => Float64Array
  slowed: (finish: ScenarioFinish) => Float64Array
}

/**
 * Prices one finish by its cost: labor stands between its lower and its upper hours where every rate of the scenario
 * does. The same beds are priced once.
 */
export function pricesByCost(finish: Finish, table: RateTable, points: Points): PriceByCost {
  const hour = laborHourCost(table)?.toNumber() ?? 0
  const factor = priceFactor(table).toNumber()
  const ordered = 1 + Number(allowanceOf(finish, table))
  const spread = rateOf(table.labor.spread, hour)
  const trip = rateOf(table.labor.trip, hour)
  const perTrip = Number(table.costs.truckPerTrip)
  const costOf = buyerOf(finish, table)
  const price = (inPlace: Float64Array, slowed: Float64Array) => {
    const prices = new Float64Array(SCENARIOS)
    for (let point = 0; point < SCENARIOS; point++) {
      const stand = points.rate[point]!
      const bought = costOf(inPlace[point]! * ordered, trip.lower + trip.gap * stand + perTrip)
      prices[point] = factor * (bought + slowed[point]! * (spread.lower + spread.gap * stand))
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

/** Setting up and the truck, for a job with a finish priced by its cost, in every scenario. */
export function setUpsByCost(table: RateTable, points: Points): Float64Array {
  const hour = laborHourCost(table)?.toNumber() ?? 0
  const setUp = rateOf(table.labor.setUp, hour)
  const factor = priceFactor(table).toNumber()
  const truck = Number(table.costs.truckPerJob)
  return points.rate.map(stand => factor * (setUp.lower + setUp.gap * stand + truck))
}
