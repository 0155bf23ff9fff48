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
 * What that leaves open is gone through by the number of all trips, from the last finish to the first, and no further than the
 * cheapest goods of those before may still come to less, and than there is room in so many trips by the limit that decides.
 * With more trips than the cheapest goods take nothing is better. Own trips are counted from the fewest that each finish makes.
 */
export function ownTripsOf(columns: Column[], { limits, reached }: Trips): ByOwnTrips {
  const width = MOST_MORE + 1
  // Of so many finishes and by the most trips of theirs: what goods come to at least. Of none it is nothing.
  const goods = new Float64Array(width * (columns.length + 1))
  const all = columns.length * width
  const leasts = new Float64Array(width)
  // Of each finish and each number of trips up to it, where the purchase stands that was taken.
  const taken = new Uint16Array(width * columns.length)
  const picked = new Uint16Array(columns.length)
  const uses = new Float64Array(limits)
  const fewestUses = new Float64Array(columns.length + 1)
  // Of the scenario that is looked at: the figures of what each finish may be bought in, the fewest trips of its own, and what
  // of each limit it may save.
  const figuresOf: Float64Array[] = []
  const leastOf: number[] = []
  const savedOf: Float64Array[] = []
  let [tripCost, limit, most, room, tried] = [0, 0, 0, 0, 0]

  return (point, each, { least: fewest, leastOwn, byCheapest }, between) => {
    const upTo = byCheapest - leastOwn
    if (upTo > MOST_MORE) return
    tripCost = each
    for (let column = 0; column < columns.length; column++) {
      const options = optionsAt(columns[column]!, point)
      figuresOf[column] = options.figures
      leastOf[column] = options.figures[2]! - options.saved[0]!
      savedOf[column] = options.saved
    }
    fill(upTo)
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
    sumFewest()
    tried = 0
    let least = Number.POSITIVE_INFINITY
    for (let more = fewest - leastOwn; more <= upTo; more++) {
      if (leasts[more]! >= most - HAIR) continue
      room = leastOwn + more
      if (tried <= MOST_TRIED) tryFrom(columns.length - 1, more, 0, 0)
      if (tried > MOST_TRIED) least = Math.min(least, leasts[more]!)
    }
    return Math.min(least, most)
  }

  // Of so many finishes, how much of the limit they use up at least.
  function sumFewest(): void {
    for (let column = 0; column < columns.length; column++) {
      const least = figuresOf[column]![limit + 2]! - savedOf[column]![limit]!
      fewestUses[column + 1] = fewestUses[column]! + least
    }
  }

  // With so many more trips at most: the least that goods of the finishes up to each come to.
  function fill(upTo: number): void {
    for (let column = 0; column < columns.length; column++) {
      const [figures, least] = [figuresOf[column]!, leastOf[column]!]
      const before = column * width
      const here = before + width
      for (let more = 0; more <= upTo; more++) goods[here + more] = Number.POSITIVE_INFINITY
      for (let at = 0; at < figures.length; at += limits + 2) {
        // A whole number, which the loop is quicker with.
        const own = (figures[at + 2]! - least) | 0
        const cost = figures[at]!
        for (let more = own; more <= upTo; more++) {
          const sum = goods[before + more - own]! + cost
          if (sum >= goods[here + more]!) continue
          goods[here + more] = sum
          taken[before + more] = at
        }
      }
    }
  }

  // Tries what takes no more trips than there is room for.
  function tryFrom(column: number, more: number, goodsSoFar: number, used: number): void {
    const [figures, least] = [figuresOf[column]!, leastOf[column]!]
    for (let at = 0; at < figures.length; at += limits + 2) {
      const left = (more - figures[at + 2]! + least) | 0
      if (left < 0) continue
      const uses = used + figures[at + limit + 2]!
      if (uses + fewestUses[column]! > room + 2 * HAIR) continue
      const cost = goodsSoFar + figures[at]!
      if (cost + goods[column * width + left]! + tripCost * room >= most - HAIR) continue
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
      const at = taken[column * width + more]!
      picked[column] = at
      more -= figuresOf[column]![at + 2]! - leastOf[column]!
    }
  }

  // With all its trips; uses are then those of it.
  function costOfPicked(): number {
    uses.fill(0)
    let sum = 0
    for (let column = 0; column < columns.length; column++) {
      const figures = figuresOf[column]!
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
}
