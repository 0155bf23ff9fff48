import { type Column, optionsAt } from '../packs/shelf.ts'
import { HAIR, type Trips, tripsUsed } from '../packs/trips.ts'

/** With more trips than these it isn't looked for what is best by their number. */
const MOST_TRIPS = 40

/** What buying together costs in a scenario: at least, and at most. */
export interface Between {
  least: number
  most: number
}

/** Brings the bounds of a scenario closer, in which anything takes so many trips at least. */
export type ByOwnTrips = (point: number, each: number, fewest: number, upTo: number, between: Between) => void

/**
 * Where the first limit is of trips that every finish makes by itself, the cheapest goods of all finishes for each number
 * of these trips are found one finish after another (R. Bellman's dynamic programming). Nothing costs less than the best of
 * these with as many trips, or as many as anything takes; and what is best costs no more than these with all their trips.
 * Where that leaves something open, the same is found with the goods dearer by their share of trips by one more limit, which
 * needn't be whole: nothing with so many trips of its own costs less than that either.
 */
export function ownTripsOf(columns: Column[], { limits, reached }: Trips): ByOwnTrips {
  const width = MOST_TRIPS + 1
  const [sums, before, leasts] = [new Float64Array(width), new Float64Array(width), new Float64Array(width)]
  // Of each finish and each number of trips up to it, where the purchase stands that was taken.
  const taken = new Uint16Array(width * columns.length)
  const uses = new Float64Array(limits)
  return (point, each, fewest, upTo, between) => {
    if (upTo > MOST_TRIPS) return
    findSums(point, upTo, 0, 0)
    let [best, least] = [0, Number.POSITIVE_INFINITY]
    for (let trips = 0; trips <= upTo; trips++) {
      const cost = sums[trips]! + each * Math.max(trips, fewest)
      leasts[trips] = cost
      if (cost < least) [best, least] = [trips, cost]
    }
    let most = Math.min(between.most, costOfTaken(best, point, each))
    if (least < most - HAIR) {
      const limit = mostUsed()
      for (let trips = best + 1; trips <= upTo; trips++)
        if (leasts[trips]! < most && sums[trips]! < sums[trips - 1]!)
          most = Math.min(most, costOfTaken(trips, point, each))
      let last = upTo
      while (last > 0 && leasts[last]! >= most) last--
      findSums(point, last, limit, each)
      least = most
      for (let trips = 0; trips <= last; trips++) {
        const cost = Math.max(leasts[trips]!, sums[trips]!)
        if (cost < least) [best, least] = [trips, cost]
      }
      if (least < most - HAIR) most = Math.min(most, costOfTaken(best, point, each))
    }
    between.least = Math.max(between.least, least)
    between.most = most
  }

  // By the most trips of all finishes, up to so many: the least that goods and so much for each trip by a limit come to.
  function findSums(point: number, upTo: number, limit: number, each: number): void {
    for (let trips = 0; trips <= upTo; trips++) sums[trips] = 0
    for (let column = 0; column < columns.length; column++) {
      const { figures } = optionsAt(columns[column]!, point)
      for (let trips = 0; trips <= upTo; trips++) {
        before[trips] = sums[trips]!
        sums[trips] = Number.POSITIVE_INFINITY
      }
      // They stand from the cheapest on: dearer goods alone are worth a look only with fewer trips.
      let fewest = Number.POSITIVE_INFINITY
      for (let at = 0; at < figures.length; at += limits + 2) {
        const own = figures[at + 2]!
        if (each === 0 && own >= fewest) continue
        fewest = own
        const more = figures[at]! + each * figures[at + limit + 2]!
        for (let trips = own; trips <= upTo; trips++) {
          const cost = before[trips - own]! + more
          if (cost >= sums[trips]!) continue
          sums[trips] = cost
          taken[column * width + trips] = at
        }
      }
    }
  }

  // What was taken for so many trips of its own comes to with all its trips; uses are then those of it.
  function costOfTaken(ownTrips: number, point: number, each: number): number {
    uses.fill(0)
    let [own, goods] = [ownTrips, 0]
    for (let column = columns.length - 1; column >= 0; column--) {
      const { figures } = optionsAt(columns[column]!, point)
      const at = taken[column * width + own]!
      own -= figures[at + 2]!
      goods += figures[at]!
      for (let limit = 0; limit < limits; limit++) uses[limit]! += figures[at + limit + 2]!
    }
    return goods + each * tripsUsed(uses, 0, limits)
  }

  function mostUsed(): number {
    let most = reached - 1
    for (let limit = 1; limit < reached; limit++) if (uses[limit]! > uses[most]!) most = limit
    return most
  }
}
