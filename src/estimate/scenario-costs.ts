import { plusFactor } from './cost-plus.ts'
import type { Draws } from './draws.ts'
import { crewHourCost } from './labour/crew-hour.ts'
import { buyingCosts } from './packs/cost-steps.ts'
import { allowanceOf } from './quantities.ts'
import type { Finish, RateTable } from './rate-table.ts'
import { rateOf } from './scenario-extras.ts'

/** What a finish priced by its cost comes to in every scenario, in money, for what it takes in yd³|m³. */
export type PriceByCost = (volumes: ScenarioVolumes) => Float64Array

/** Of a finish in every scenario, in yd³|m³: in place, and what would take as long with nothing in the way. */
export interface ScenarioVolumes {
  inPlace: Float64Array
  slowed: Float64Array
}

/** Prices one finish by its cost: labour stands between its lower and its upper hours where every rate of the scenario does. */
export function pricesByCost(finish: Finish, table: RateTable, draws: Draws): PriceByCost {
  const hour = crewHourCost(table)?.toNumber() ?? 0
  const factor = plusFactor(table).toNumber()
  const ordered = 1 + Number(allowanceOf(finish, table))
  const spread = rateOf(table.labour.spread, hour)
  const trip = rateOf(table.labour.trip, hour)
  const perTrip = Number(table.costs.truckPerTrip)
  const tripCosts = draws.rate.map(stand => trip.lower + trip.gap * stand + perTrip)
  return ({ inPlace, slowed }) => {
    const needs = inPlace.map(volume => volume * ordered)
    const bought = buyingCosts(finish, table, needs, tripCosts)
    return bought.map(
      (cost, draw) => factor * (cost + slowed[draw]! * (spread.lower + spread.gap * draws.rate[draw]!)),
    )
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
