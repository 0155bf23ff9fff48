import { plusFactor } from './cost-plus.ts'
import type { Draws } from './draws.ts'
import { crewHourCost } from './labour/crew-hour.ts'
import { buyingCosts } from './packs/cost-steps.ts'
import { allowanceOf, type FinishQuantities } from './quantities.ts'
import type { RateTable } from './rate-table.ts'
import { rateOf } from './scenario-extras.ts'

/** What a finish priced by its cost comes to in every scenario, in money, for its volumes in place in yd³|m³. */
export type PriceByCost = (volumes: Float64Array) => Float64Array

/**
 * Prices one finish by its cost: labour stands between its lower and its upper hours where every rate of the scenario
 * stands. What slows the laying is taken at its share of the beds as told.
 */
export function pricesByCost(
  { finish, inPlace, slowed }: FinishQuantities,
  table: RateTable,
  draws: Draws,
): PriceByCost {
  const hour = crewHourCost(table)?.toNumber() ?? 0
  const factor = plusFactor(table).toNumber()
  const ordered = 1 + Number(allowanceOf(finish, table))
  const slowness = inPlace.gt(0) ? slowed.div(inPlace).toNumber() : 1
  const spread = rateOf(table.labour.spread, hour * slowness)
  const trip = rateOf(table.labour.trip, hour)
  const perTrip = Number(table.costs.truckPerTrip)
  const tripCosts = draws.rate.map(stand => trip.lower + trip.gap * stand + perTrip)
  return volumes => {
    const needs = volumes.map(volume => volume * ordered)
    const bought = buyingCosts(finish, table, needs, tripCosts)
    return bought.map(
      (cost, draw) => factor * (cost + volumes[draw]! * (spread.lower + spread.gap * draws.rate[draw]!)),
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
