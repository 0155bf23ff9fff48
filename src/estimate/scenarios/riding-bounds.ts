import type { Options } from '../packs/choices.ts'
import { type Trips, wholeTrips } from '../packs/trips.ts'

/** How many scenarios are looked at to tell which limit of a trip decides in most. */
const LOOKED_AT = 8

/**
 * Between what buying finishes together costs in every scenario: at least it is what is best by the limit that mostly decides
 * where trips needn't be whole, at most the same with whole trips.
 */
export function boundsOf(columns: Options[][], { limits, reached }: Trips, tripCosts: Float64Array) {
  const count = tripCosts.length
  const [atLeast, atMost] = [new Float64Array(count), new Float64Array(count)]
  const limit = decidingLimit(columns, limits, tripCosts)
  const uses = new Float64Array(reached)
  for (let point = 0; point < count; point++) {
    const each = tripCosts[point]!
    let [goods, lean] = [0, 0]
    for (let other = 0; other < reached; other++) uses[other] = 0
    for (let column = 0; column < columns.length; column++) {
      const options = columns[column]![point]!
      const { figures } = options
      const at = leanestAt(options, limit, each)
      goods += figures[at]!
      lean += figures[at + limit + 2]!
      for (let other = 0; other < reached; other++) uses[other]! += figures[at + other + 2]!
    }
    let most = 0
    for (let other = 0; other < reached; other++) if (uses[other]! > most) most = uses[other]!
    atMost[point] = goods + each * wholeTrips(most)
    atLeast[point] = Math.min(atMost[point]!, goods + each * lean)
  }
  return { atLeast, atMost }
}

/** Where the figures of the purchase stand that is best by one limit where trips needn't be whole. */
export function leanestAt({ figures, leanest }: Options, limit: number, each: number): number {
  const last = leanest[limit + 2]!
  let rank = leanest[limit + 1]!
  let best = leanest[rank]!
  if (rank + 1 === last) return best
  let least = figures[best]! + each * figures[best + limit + 2]!
  for (rank++; rank < last; rank++) {
    const at = leanest[rank]!
    const cost = figures[at]! + each * figures[at + limit + 2]!
    if (cost < least) [least, best] = [cost, at]
  }
  return best
}

/** The limit by which purchases come to most, over some scenarios. */
function decidingLimit(columns: Options[][], limits: number, tripCosts: Float64Array): number {
  if (limits === 1) return 0
  const some = Array.from({ length: LOOKED_AT }, (_, index) =>
    Math.floor(((index + 0.5) * tripCosts.length) / LOOKED_AT),
  )
  let [deciding, most] = [0, 0]
  for (let limit = 0; limit < limits; limit++) {
    let sum = 0
    for (const point of some) {
      const each = tripCosts[point]!
      for (const column of columns) {
        const options = column[point]!
        const at = leanestAt(options, limit, each)
        sum += options.figures[at]! + each * options.figures[at + limit + 2]!
      }
    }
    if (sum > most) [deciding, most] = [limit, sum]
  }
  return deciding
}
