import type { Options } from '../packs/choices.ts'
import { type Trips, wholeTrips } from '../packs/trips.ts'
import { type Between, ownTripsOf } from './own-trips.ts'

/**
 * Gives closer bounds of a scenario; what it gives is written over when it is asked again. At most it is also what is best
 * by the tightest limit with whole trips, at least that limit's, or the cheapest goods with the fewest trips that any
 * purchases take.
 */
export function closerOf(
  columns: Options[][],
  { limits, firstIsWhole }: Trips,
  tripCosts: Float64Array,
): (point: number) => Between {
  const [uses, fewest, lean] = [new Float64Array(limits), new Float64Array(limits), new Float64Array(limits)]
  const between: Between = { least: 0, most: 0 }
  const byOwnTrips = firstIsWhole ? ownTripsOf(columns, limits) : null
  return point => {
    const each = tripCosts[point]!
    let goods = 0
    for (let limit = 0; limit < limits; limit++) uses[limit] = fewest[limit] = lean[limit] = 0
    for (let column = 0; column < columns.length; column++) {
      const { figures, leanest, saved } = columns[column]![point]!
      goods += figures[0]!
      for (let limit = 0; limit < limits; limit++) {
        const use = figures[limit + 2]!
        uses[limit]! += use
        fewest[limit]! += use - saved[limit]!
        let least = Number.POSITIVE_INFINITY
        for (let rank = leanest[limit + 1]!; rank < leanest[limit + 2]!; rank++) {
          const at = leanest[rank]!
          const cost = figures[at]! + each * figures[at + limit + 2]!
          if (cost < least) least = cost
        }
        lean[limit]! += least
      }
    }
    let [most, few, leanMost, tight] = [0, 0, 0, 0]
    for (let limit = 0; limit < limits; limit++) {
      if (uses[limit]! > most) most = uses[limit]!
      if (fewest[limit]! > few) few = fewest[limit]!
      if (lean[limit]! > leanMost) [leanMost, tight] = [lean[limit]!, limit]
    }
    between.most = goods + each * wholeTrips(most)
    between.least = Math.max(leanMost, goods + each * wholeTrips(few))
    if (!byOwnTrips && between.most > between.least + each)
      between.most = Math.min(between.most, leanestTogether(columns, point, tight, uses, each))
    byOwnTrips?.(point, each, wholeTrips(few), between)
    between.least = Math.min(between.least, between.most)
    return between
  }
}

// What is best by one limit where trips needn't be whole, with trips that are. Writes over `uses`.
function leanestTogether(
  columns: Options[][],
  point: number,
  limit: number,
  uses: Float64Array,
  each: number,
): number {
  let goods = 0
  uses.fill(0)
  for (let column = 0; column < columns.length; column++) {
    const { figures, leanest } = columns[column]![point]!
    let [least, from] = [Number.POSITIVE_INFINITY, 0]
    for (let rank = leanest[limit + 1]!; rank < leanest[limit + 2]!; rank++) {
      const at = leanest[rank]!
      const cost = figures[at]! + each * figures[at + limit + 2]!
      if (cost < least) [least, from] = [cost, at]
    }
    goods += figures[from]!
    for (let other = 0; other < uses.length; other++) uses[other]! += figures[from + other + 2]!
  }
  let most = 0
  for (let other = 0; other < uses.length; other++) if (uses[other]! > most) most = uses[other]!
  return goods + each * wholeTrips(most)
}
