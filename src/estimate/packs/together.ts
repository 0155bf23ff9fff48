import type { RateTable } from '../table/rate-table.ts'
import type { Choice } from './found.ts'
import type { Options } from './options.ts'
import { HAIR, type Trips, tripsUsed, wholeTrips } from './trips.ts'

/** How many purchases of a job are compared at most where several finishes have more than one that may be best. */
const MOST_TRIED = 4096

/** The best purchase of every finish together; `total` in money, with its trips. */
export interface Together {
  total: number
  trips: number
  picks: Choice[]
}

/** Finds the purchases that cost least with the trips that fetch them. What it gives is written over when it is asked again. */
export type Finder = (options: Options[], tripCost: number) => Together

/** The first of those that cost the same, the cheapest goods before all others. */
export function finderOf(trips: Trips, { fetching }: Pick<RateTable, 'fetching'>): Finder {
  const best: Together = { total: 0, trips: 0, picks: [] }
  if (fetching.together === 'each') return (options, tripCost) => eachByItself(options, tripCost, best)
  const search = new Search(trips, best)
  return (options, tripCost) => {
    search.begin(options, tripCost)
    return best
  }
}

function eachByItself(options: Options[], tripCost: number, best: Together): Together {
  best.total = 0
  best.trips = 0
  for (let index = 0; index < options.length; index++) {
    const { choices } = options[index]!
    let pick = choices[0]!
    let least = pick.goods + pick.uses[0]! * tripCost
    for (let at = 1; at < choices.length; at++) {
      const choice = choices[at]!
      const cost = choice.goods + choice.uses[0]! * tripCost
      if (cost < least - HAIR) [least, pick] = [cost, choice]
    }
    best.picks[index] = pick
    best.total += least
    best.trips += pick.uses[0]!
  }
  return best
}

/**
 * Goes through the purchases of those finishes that have a choice, those first that can save most, and no further than may
 * still come to less: with what is open at its cheapest and at its least, and with trips that needn't be whole.
 */
class Search {
  readonly best: Together
  readonly limits: number
  options: Options[] = []
  tripCost = 0
  tried = 0
  open: number[] = []
  /** Where what is picked of each open finish stands in its figures. */
  picked: number[] = []
  // From each of the open finishes on: what their goods come to at least; and limit by limit what they use up at least,
  // and what goods and this limit come to at least. Before it: what is used up.
  readonly restGoods: Float64Array
  readonly restUses: Float64Array
  readonly restCost: Float64Array
  readonly used: Float64Array
  /** Where the purchase of each open finish stands that costs least, limit by limit, with trips that needn't be whole. */
  readonly leanest: Uint16Array

  constructor({ limits, finishes }: Trips, best: Together) {
    this.best = best
    this.limits = limits
    this.restGoods = new Float64Array(finishes + 1)
    this.restUses = new Float64Array(limits * (finishes + 1))
    this.restCost = new Float64Array(limits * (finishes + 1))
    this.used = new Float64Array(limits * (finishes + 1))
    this.leanest = new Uint16Array(limits * (finishes + 1))
  }

  begin(options: Options[], tripCost: number): void {
    const { best, used, limits, open } = this
    let goods = 0
    let fixed = 0
    let count = 0
    for (let limit = 0; limit < limits; limit++) used[limit] = used[limits + limit] = 0
    for (let index = 0; index < options.length; index++) {
      const { cheapest, figures } = options[index]!
      const from = figures.length > limits + 2 ? limits : 0
      goods += figures[0]!
      for (let limit = 0; limit < limits; limit++) used[from + limit]! += figures[limit + 2]!
      best.picks[index] = cheapest
      if (from > 0) open[count++] = index
      else fixed += figures[0]!
    }
    open.length = count
    for (let limit = 0; limit < limits; limit++) used[limits + limit]! += used[limit]!
    const [all] = [count > 0 ? limits : 0]
    best.trips = tripsUsed(used, all, limits)
    best.total = goods + best.trips * tripCost
    if (count === 0 || best.trips === 0) return
    this.options = options
    this.tripCost = tripCost
    this.tried = 0
    this.sumUp()
    for (let limit = 0; limit < limits; limit++) this.tryLeanest(limit, fixed)
    this.from(0, fixed)
  }

  // Puts the open finishes in order by what they can save of the limit that is used most.
  sumUp(): void {
    const { open, options, limits, restGoods, restUses, restCost, leanest, used, tripCost } = this
    let most = 0
    for (let limit = 1; limit < limits; limit++)
      if (used[limits + limit]! > used[limits + most]!) most = limit
    for (let index = 1; index < open.length; index++) {
      const one = open[index]!
      const saved = options[one]!.saved[most]!
      let at = index
      for (; at > 0 && options[open[at - 1]!]!.saved[most]! < saved; at--) open[at] = open[at - 1]!
      open[at] = one
    }
    const end = open.length
    restGoods[end] = 0
    for (let limit = 0; limit < limits; limit++)
      restUses[end * limits + limit] = restCost[end * limits + limit] = 0
    for (let at = end - 1; at >= 0; at--) {
      const { figures, saved } = options[open[at]!]!
      restGoods[at] = restGoods[at + 1]! + figures[0]!
      for (let limit = 0; limit < limits; limit++) {
        const here = at * limits + limit
        let least = Number.POSITIVE_INFINITY
        for (let from = 0; from < figures.length; from += limits + 2) {
          const cost = figures[from]! + tripCost * figures[from + limit + 2]!
          if (cost < least - HAIR) {
            least = cost
            leanest[here] = from
          }
        }
        restUses[here] = restUses[here + limits]! + figures[limit + 2]! - saved[limit]!
        restCost[here] = restCost[here + limits]! + least
      }
    }
  }

  // What is best where trips needn't be whole is often best where they must, and then nothing else is tried.
  tryLeanest(limit: number, fixed: number): void {
    const { best, open, options, limits, used, leanest, picked } = this
    const sums = open.length * limits
    let goods = fixed
    for (let at = 0; at < limits; at++) used[sums + at] = used[at]!
    for (let at = 0; at < open.length; at++) {
      const from = leanest[at * limits + limit]!
      const { figures } = options[open[at]!]!
      picked[at] = from
      goods += figures[from]!
      for (let other = 0; other < limits; other++) used[sums + other]! += figures[from + other + 2]!
    }
    const trips = tripsUsed(used, sums, limits)
    const total = goods + trips * this.tripCost
    if (total < best.total - HAIR) this.take(total, trips)
  }

  from(at: number, goods: number): void {
    const { best, used, limits, restUses, restCost, tripCost, open } = this
    const here = at * limits
    let most = 0
    let least = 0
    for (let limit = 0; limit < limits; limit++) {
      const use = used[here + limit]!
      const uses = use + restUses[here + limit]!
      if (uses > most) most = uses
      const cost = tripCost * use + restCost[here + limit]!
      if (cost > least) least = cost
    }
    const trips = wholeTrips(most)
    const total = goods + this.restGoods[at]! + trips * tripCost
    if (total >= best.total - HAIR || goods + least >= best.total - HAIR) return
    if (this.tried++ >= MOST_TRIED) return
    if (at === open.length) this.take(total, trips)
    else this.branch(at, goods)
  }

  branch(at: number, goods: number): void {
    const { used, limits, open, options, picked } = this
    const { figures } = options[open[at]!]!
    const here = at * limits
    const next = here + limits
    for (let from = 0; from < figures.length; from += limits + 2) {
      picked[at] = from
      for (let limit = 0; limit < limits; limit++)
        used[next + limit] = used[here + limit]! + figures[from + limit + 2]!
      this.from(at + 1, goods + figures[from]!)
    }
  }

  take(total: number, trips: number): void {
    const { best, options, open, picked, limits } = this
    best.total = total
    best.trips = trips
    for (let at = 0; at < open.length; at++)
      best.picks[open[at]!] = options[open[at]!]!.rising[picked[at]! / (limits + 2)]!
  }
}
