import { type Column, leanestAt, optionsAt } from '../packs/shelf.ts'
import { HAIR, type Trips, tripsUsed } from '../packs/trips.ts'
import { type Between, ownTripsOf, type TripsTaken } from './own-trips.ts'

/**
 * Gives closer bounds of a scenario; what it gives is written over when it is asked again. At most it is the cheapest goods
 * with their trips, at least these with the fewest trips that any purchases take; and what own trips say where finishes
 * make some, else what the tightest limit does.
 */
export function closerOf(
  columns: Column[],
  trips: Trips,
  tripCosts: Float64Array,
): (point: number) => Between {
  const { limits, firstIsWhole } = trips
  const [uses, fewest] = [new Float64Array(limits), new Float64Array(limits)]
  const between: Between = { least: 0, most: 0 }
  const taken: TripsTaken = { least: 0, leastOwn: 0, byCheapest: 0 }
  const byOwnTrips = firstIsWhole ? ownTripsOf(columns, trips) : null
  return point => {
    const each = tripCosts[point]!
    let goods = 0
    for (let limit = 0; limit < limits; limit++) uses[limit] = fewest[limit] = 0
    for (let column = 0; column < columns.length; column++) {
      const { figures, saved } = optionsAt(columns[column]!, point)
      goods += figures[0]!
      for (let limit = 0; limit < limits; limit++) {
        const use = figures[limit + 2]!
        uses[limit]! += use
        fewest[limit]! += use - saved[limit]!
      }
    }
    taken.least = tripsUsed(fewest, 0, limits)
    taken.leastOwn = fewest[0]!
    taken.byCheapest = tripsUsed(uses, 0, limits)
    between.most = goods + each * taken.byCheapest
    between.least = goods + each * taken.least
    if (byOwnTrips) byOwnTrips(point, each, taken, between)
    else byTightest(point, each)
    if (between.least > between.most - HAIR) between.least = between.most
    return between
  }

  // What is best by one limit where trips needn't be whole; where this leaves much open, also with trips that are.
  function byTightest(point: number, each: number): void {
    let [least, tight] = [0, 0]
    for (let limit = 0; limit < limits; limit++) {
      let cost = 0
      for (let column = 0; column < columns.length; column++) {
        const { shelf, rows } = columns[column]!
        const at = leanestAt(shelf, rows[point]!, limit, each)
        cost += shelf.figures[at]! + each * shelf.figures[at + limit + 2]!
      }
      if (cost > least) [least, tight] = [cost, limit]
    }
    between.least = Math.max(between.least, least)
    if (between.most > between.least + each)
      between.most = Math.min(between.most, wholeByLimit(point, tight, each))
  }

  function wholeByLimit(point: number, limit: number, each: number): number {
    let goods = 0
    uses.fill(0)
    for (let column = 0; column < columns.length; column++) {
      const { shelf, rows } = columns[column]!
      const at = leanestAt(shelf, rows[point]!, limit, each)
      goods += shelf.figures[at]!
      for (let other = 0; other < limits; other++) uses[other]! += shelf.figures[at + other + 2]!
    }
    return goods + each * tripsUsed(uses, 0, limits)
  }
}
