import { type Column, leanestAt } from '../packs/shelf.ts'
import { type Trips, wholeTrips } from '../packs/trips.ts'

/** How many scenarios are looked at to tell which limit of a trip decides in most. */
const LOOKED_AT = 8

/**
 * Between what buying finishes together costs in every scenario: at least it is what is best by the limit that mostly decides
 * where trips needn't be whole, at most the same with whole trips.
 */
export function boundsOf(columns: Column[], { limits, reached }: Trips, tripCosts: Float64Array) {
  const count = tripCosts.length
  const [atLeast, atMost] = [new Float64Array(count), new Float64Array(count)]
  const limit = decidingLimit(columns, limits, tripCosts)
  // What all columns come to, one after another: goods, this limit and all that are reached.
  const [goods, lean, uses] = [atMost, atLeast, new Float64Array(count * reached)]
  for (const { shelf, rows } of columns) {
    const { figures } = shelf
    for (let point = 0; point < count; point++) {
      const at = leanestAt(shelf, rows[point]!, limit, tripCosts[point]!)
      goods[point]! += figures[at]!
      lean[point]! += figures[at + limit + 2]!
      for (let other = 0; other < reached; other++) uses[point * reached + other]! += figures[at + other + 2]!
    }
  }
  for (let point = 0; point < count; point++) {
    const each = tripCosts[point]!
    let most = 0
    for (let use = point * reached; use < (point + 1) * reached; use++)
      if (uses[use]! > most) most = uses[use]!
    const least = goods[point]! + each * lean[point]!
    atMost[point] = goods[point]! + each * wholeTrips(most)
    atLeast[point] = Math.min(atMost[point]!, least)
  }
  return { atLeast, atMost }
}

/** The limit by which purchases come to most, over some scenarios. */
function decidingLimit(columns: Column[], limits: number, tripCosts: Float64Array): number {
  if (limits === 1) return 0
  const some = Array.from({ length: LOOKED_AT }, (_, index) =>
    Math.floor(((index + 0.5) * tripCosts.length) / LOOKED_AT),
  )
  let [deciding, most] = [0, 0]
  for (let limit = 0; limit < limits; limit++) {
    let sum = 0
    for (const point of some) {
      const each = tripCosts[point]!
      for (const { shelf, rows } of columns) {
        const at = leanestAt(shelf, rows[point]!, limit, each)
        sum += shelf.figures[at]! + each * shelf.figures[at + limit + 2]!
      }
    }
    if (sum > most) [deciding, most] = [limit, sum]
  }
  return deciding
}
