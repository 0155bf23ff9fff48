import { type Column, optionsAt } from '../packs/shelf.ts'
import { HAIR, type Trips, tripsUsed } from '../packs/trips.ts'

/** With so many more trips than have to be it isn't looked for what is best by their number. */
const MOST_MORE = 40
/** How many purchases are tried at most to close what is left open. */
const MOST_TRIED = 2000

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

/** Brings the bounds of a scenario closer, in which a trip costs so much each; mostly to what it comes to. */
export type ByOwnTrips = (point: number, each: number, trips: TripsTaken, between: Between) => void

/**
 * Where the first limit is of trips that every finish makes by itself, the cheapest goods of all finishes for each number
 * of these trips are found one finish after another (R. Bellman's dynamic programming). Nothing costs less than the best of
 * these with as many trips, or as many as anything takes; and what is best costs no more than these with all their trips.
 * Where that leaves something open, the same is found with the goods dearer by their share of trips by one more limit, which
 * needn't be whole: nothing with so many trips of its own costs less than that either. What of both is still open is
 * gone through, from the last finish to the first, and no further than what is found for those before may still come to less.
 * With more trips than the cheapest goods take nothing is better. Trips are counted from the fewest that each finish makes.
 */
export function ownTripsOf(columns: Column[], { limits, reached }: Trips): ByOwnTrips {
  const width = MOST_MORE + 1
  // Of so many finishes and by the most trips of theirs: what goods come to at least, and what they do with one more limit.
  const [goods, dearer] = [emptyTable(), emptyTable()]
  const leasts = new Float64Array(width)
  // Of each finish and each number of trips up to it, where the purchase stands that was taken.
  const taken = new Uint16Array(width * columns.length)
  const picked = new Uint16Array(columns.length)
  const uses = new Float64Array(limits)
  const fewestUses = new Float64Array(columns.length + 1)
  const all = columns.length * width
  let [scenario, tripCost, limit, most, room, tried] = [0, 0, 0, 0, 0, 0]

  return (point, each, { least: fewest, leastOwn, byCheapest }, between) => {
    const upTo = byCheapest - leastOwn
    if (upTo > MOST_MORE) return
    ;[scenario, tripCost] = [point, each]
    fill(goods, upTo, 0)
    let [best, least] = [0, Number.POSITIVE_INFINITY]
    for (let more = 0; more <= upTo; more++) {
      const cost = goods[all + more]! + each * Math.max(leastOwn + more, fewest)
      leasts[more] = cost
      if (cost < least) [best, least] = [more, cost]
    }
    takeUpTo(best)
    most = Math.min(between.most, costOfPicked())
    if (least < most - HAIR) least = close(best, upTo, Math.max(fewest, leastOwn), leastOwn)
    between.least = Math.max(between.least, least)
    between.most = most
  }

  // Brings `most` down as far as it goes, and gives what nothing costs less than.
  function close(best: number, upTo: number, fewest: number, leastOwn: number): number {
    limit = mostUsed()
    for (let more = best + 1; more <= upTo; more++) {
      if (leasts[more]! >= most || goods[all + more] === goods[all + more - 1]) continue
      takeUpTo(more)
      most = Math.min(most, costOfPicked())
    }
    let last = upTo
    while (last > 0 && leasts[last]! >= most - HAIR) last--
    fill(dearer, last, tripCost)
    sumFewest()
    tried = 0
    let least = Number.POSITIVE_INFINITY
    for (let more = fewest - leastOwn; more <= last; more++) {
      const cost = Math.max(leasts[more]!, dearer[all + more]!)
      if (cost >= most - HAIR) continue
      room = leastOwn + more
      if (tried <= MOST_TRIED) tryFrom(columns.length - 1, more, 0, 0)
      if (tried > MOST_TRIED) least = Math.min(least, cost)
    }
    return Math.min(least, most)
  }

  // Of so many finishes, how much of the limit they use up at least.
  function sumFewest(): void {
    for (let column = 0; column < columns.length; column++) {
      const { figures, saved } = optionsAt(columns[column]!, scenario)
      fewestUses[column + 1] = fewestUses[column]! + figures[limit + 2]! - saved[limit]!
    }
  }

  // With so many more trips at most of the finishes up to each: the least that goods, and so much for each trip by a limit, come to.
  function fill(table: Float64Array, upTo: number, each: number): void {
    for (let column = 0; column < columns.length; column++) {
      const { figures, saved } = optionsAt(columns[column]!, scenario)
      const least = figures[2]! - saved[0]!
      const before = column * width
      const here = before + width
      for (let more = 0; more <= upTo; more++) table[here + more] = Number.POSITIVE_INFINITY
      for (let at = 0; at < figures.length; at += limits + 2) {
        // A whole number, which the loop is quicker with.
        const own = (figures[at + 2]! - least) | 0
        const cost = figures[at]! + each * figures[at + limit + 2]!
        for (let more = own; more <= upTo; more++) {
          const sum = table[before + more - own]! + cost
          if (sum >= table[here + more]!) continue
          table[here + more] = sum
          taken[before + more] = at
        }
      }
    }
  }

  // Tries what takes no more trips than there is room for.
  function tryFrom(column: number, more: number, goodsSoFar: number, used: number): void {
    const { figures, saved } = optionsAt(columns[column]!, scenario)
    const least = figures[2]! - saved[0]!
    for (let at = 0; at < figures.length; at += limits + 2) {
      const left = (more - figures[at + 2]! + least) | 0
      if (left < 0) continue
      const uses = used + figures[at + limit + 2]!
      if (uses + fewestUses[column]! > room + 2 * HAIR) continue
      const cost = goodsSoFar + figures[at]!
      const rest = column * width + left
      if (cost + goods[rest]! + tripCost * room >= most - HAIR) continue
      if (cost + tripCost * uses + dearer[rest]! >= most - HAIR) continue
      if (tried++ > MOST_TRIED) return
      picked[column] = at
      if (column === 0) most = Math.min(most, costOfPicked())
      else tryFrom(column - 1, left, cost, uses)
    }
  }

  // Picks what was taken for so many more trips at most.
  function takeUpTo(most: number): void {
    let more = most
    for (let column = columns.length - 1; column >= 0; column--) {
      const { figures, saved } = optionsAt(columns[column]!, scenario)
      const at = taken[column * width + more]!
      picked[column] = at
      more -= figures[at + 2]! - figures[2]! + saved[0]!
    }
  }

  // With all its trips; uses are then those of it.
  function costOfPicked(): number {
    uses.fill(0)
    let sum = 0
    for (let column = 0; column < columns.length; column++) {
      const { figures } = optionsAt(columns[column]!, scenario)
      const at = picked[column]!
      sum += figures[at]!
      for (let use = 0; use < reached; use++) uses[use]! += figures[at + use + 2]!
    }
    return sum + tripCost * tripsUsed(uses, 0, reached)
  }

  function mostUsed(): number {
    let most = reached - 1
    for (let use = 1; use < reached; use++) if (uses[use]! > uses[most]!) most = use
    return most
  }

  // Of no finish everything comes to nothing.
  function emptyTable(): Float64Array {
    return new Float64Array(width * (columns.length + 1))
  }
}
