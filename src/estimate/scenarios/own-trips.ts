import type { Options } from '../packs/choices.ts'
import { tripsUsed } from '../packs/trips.ts'

/** With more trips than these it isn't looked for what is best by their number. */
const MOST_TRIPS = 40

/** What buying together costs in a scenario: at least, and at most. */
export interface Between {
  least: number
  most: number
}

/** Brings the bounds of a scenario closer, in which anything takes so many trips at least. */
export type ByOwnTrips = (point: number, each: number, fewest: number, between: Between) => void

/**
 * Where the first limit is of trips that every finish makes by itself, the cheapest goods of all finishes for each number
 * of these trips are found one finish after another (R. Bellman's dynamic programming). Nothing costs less than the best of
 * these with as many trips, or as many as anything takes; and what is best costs no more than these with all their trips.
 */
export function ownTripsOf(columns: Options[][], limits: number): ByOwnTrips {
  const width = MOST_TRIPS + 1
  const [goods, before] = [new Float64Array(width), new Float64Array(width)]
  // Of each finish and each number of trips up to it, where the purchase stands that was taken.
  const taken = new Uint16Array(width * columns.length)
  const uses = new Float64Array(limits)
  return (point, each, fewest, between) => {
    const last = findGoods(point)
    if (last < 0) return
    let [best, least] = [0, Number.POSITIVE_INFINITY]
    for (let trips = 0; trips <= last; trips++) {
      const cost = goods[trips]! + each * Math.max(trips, fewest)
      if (cost < least) [best, least] = [trips, cost]
    }
    between.least = Math.max(between.least, least)
    between.most = Math.min(between.most, goods[best]! + each * allTrips(best, point))
  }

  // The cheapest goods by the trips of all finishes; the most of these, or -1 where there are too many.
  function findGoods(point: number): number {
    let last = 0
    goods[0] = 0
    for (let column = 0; column < columns.length; column++) {
      const { figures } = columns[column]![point]!
      const most = last + figures[2]!
      if (most > MOST_TRIPS) return -1
      for (let trips = 0; trips <= last; trips++) before[trips] = goods[trips]!
      for (let trips = 0; trips <= most; trips++) goods[trips] = Number.POSITIVE_INFINITY
      // They stand from the cheapest on: dearer ones are worth a look only with fewer trips.
      let fewest = Number.POSITIVE_INFINITY
      for (let at = 0; at < figures.length; at += limits + 2) {
        const own = figures[at + 2]!
        if (own >= fewest) continue
        fewest = own
        for (let trips = 0; trips <= last; trips++) {
          const cost = before[trips]! + figures[at]!
          if (cost >= goods[trips + own]!) continue
          goods[trips + own] = cost
          taken[column * width + trips + own] = at
        }
      }
      last = most
    }
    return last
  }

  // The trips of what was taken, by all limits.
  function allTrips(ownTrips: number, point: number): number {
    uses.fill(0)
    let own = ownTrips
    for (let column = columns.length - 1; column >= 0; column--) {
      const { figures } = columns[column]![point]!
      const at = taken[column * width + own]!
      own -= figures[at + 2]!
      for (let limit = 0; limit < limits; limit++) uses[limit]! += figures[at + limit + 2]!
    }
    return tripsUsed(uses, 0, limits)
  }
}
