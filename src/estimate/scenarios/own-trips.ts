import { type Column, optionsAt } from '../packs/shelf.ts'
import { HAIR, type Trips, tripsUsed } from '../packs/trips.ts'

/** With so many more trips than have to be it isn't looked for what is best by their number. */
const MOST_MORE = 40

/** What buying together costs in a scenario: at least, and at most. */
export interface Between {
  least: number
  most: number
}

/** How many trips anything takes at least, how many of them finishes make by themselves, and how many the cheapest goods take. */
export interface TripsTaken {
  least: number
  leastOwn: number
  byCheapest: number
}

/** Brings the bounds of a scenario closer, in which a trip costs so much each. */
export type ByOwnTrips = (point: number, each: number, trips: TripsTaken, between: Between) => void

/**
 * Where the first limit is of trips that every finish makes by itself, the cheapest goods of all finishes for each number
 * of these trips are found one finish after another (R. Bellman's dynamic programming). Nothing costs less than the best of
 * these with as many trips, or as many as anything takes; and what is best costs no more than these with all their trips.
 * Where that leaves something open, the same is found with the goods dearer by their share of trips by one more limit, which
 * needn't be whole: nothing with so many trips of its own costs less than that either. With more trips than the cheapest
 * goods take nothing is better. Trips are counted from the fewest that each finish makes.
 */
export function ownTripsOf(columns: Column[], { limits, reached }: Trips): ByOwnTrips {
  const width = MOST_MORE + 1
  const [sums, before, leasts] = [new Float64Array(width), new Float64Array(width), new Float64Array(width)]
  // Of each finish and each number of trips up to it, where the purchase stands that was taken.
  const taken = new Uint16Array(width * columns.length)
  const uses = new Float64Array(limits)
  return (point, each, { least: fewest, leastOwn, byCheapest }, between) => {
    const upTo = byCheapest - leastOwn
    if (upTo > MOST_MORE) return
    findSums(point, upTo, 0, 0)
    let [best, least] = [0, Number.POSITIVE_INFINITY]
    for (let more = 0; more <= upTo; more++) {
      const cost = sums[more]! + each * Math.max(leastOwn + more, fewest)
      leasts[more] = cost
      if (cost < least) [best, least] = [more, cost]
    }
    let most = Math.min(between.most, costOfTaken(best, point, each))
    if (least < most - HAIR) {
      const limit = mostUsed()
      for (let more = best + 1; more <= upTo; more++)
        if (leasts[more]! < most && sums[more]! < sums[more - 1]!)
          most = Math.min(most, costOfTaken(more, point, each))
      let last = upTo
      while (last > 0 && leasts[last]! >= most) last--
      findSums(point, last, limit, each)
      least = most
      for (let more = 0; more <= last; more++) {
        const cost = Math.max(leasts[more]!, sums[more]!)
        if (cost < least) [best, least] = [more, cost]
      }
      if (least < most - HAIR) most = Math.min(most, costOfTaken(best, point, each))
    }
    between.least = Math.max(between.least, least)
    between.most = most
  }

  // With so many more trips at most: the least that goods and so much for each trip by a limit come to.
  function findSums(point: number, upTo: number, limit: number, each: number): void {
    for (let more = 0; more <= upTo; more++) sums[more] = 0
    for (let column = 0; column < columns.length; column++) {
      const { figures, saved } = optionsAt(columns[column]!, point)
      const least = figures[2]! - saved[0]!
      const row = column * width
      for (let more = 0; more <= upTo; more++) {
        before[more] = sums[more]!
        sums[more] = Number.POSITIVE_INFINITY
      }
      for (let at = 0; at < figures.length; at += limits + 2) {
        // A whole number, which the loop is quicker with.
        const own = (figures[at + 2]! - least) | 0
        const cost = figures[at]! + each * figures[at + limit + 2]!
        for (let more = own; more <= upTo; more++) {
          const sum = before[more - own]! + cost
          if (sum >= sums[more]!) continue
          sums[more] = sum
          taken[row + more] = at
        }
      }
    }
  }

  // What was taken for so many more trips of its own comes to with all its trips; uses are then those of it.
  function costOfTaken(ownTrips: number, point: number, each: number): number {
    uses.fill(0)
    let [more, goods] = [ownTrips, 0]
    for (let column = columns.length - 1; column >= 0; column--) {
      const { figures, saved } = optionsAt(columns[column]!, point)
      const at = taken[column * width + more]!
      more -= figures[at + 2]! - figures[2]! + saved[0]!
      goods += figures[at]!
      for (let limit = 0; limit < reached; limit++) uses[limit]! += figures[at + limit + 2]!
    }
    return goods + each * tripsUsed(uses, 0, reached)
  }

  function mostUsed(): number {
    let most = reached - 1
    for (let limit = 1; limit < reached; limit++) if (uses[limit]! > uses[most]!) most = limit
    return most
  }
}
