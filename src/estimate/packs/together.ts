import type { RateTable } from '../table/rate-table.ts'
import type { Choice, Options } from './choices.ts'
import { HAIR, type Trips, wholeTrips } from './trips.ts'

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
 * Tries dearer goods for fewer trips, from all finishes at their cheapest: finish by finish, those first that can save most,
 * and no further once what the trips are still over by can't be saved any more, or costs more to save than it may.
 */
class Search {
  readonly best: Together
  readonly limits: number
  options: Options[] = []
  tripCost = 0
  tried = 0
  /** The finishes that have a choice. */
  open: number[] = []
  picked: Choice[] = []
  used: Float64Array
  /** From each of the open ones on, limit by limit: how much they can save, and what that costs at least for a trip. */
  saves: Float64Array
  perTrip: Float64Array

  constructor({ limits, finishes }: Trips, best: Together) {
    this.best = best
    this.limits = limits
    this.used = new Float64Array(limits)
    this.saves = new Float64Array(limits * (finishes + 1))
    this.perTrip = new Float64Array(limits * (finishes + 1)).fill(Number.POSITIVE_INFINITY)
  }

  begin(options: Options[], tripCost: number): void {
    const { best, used, limits, open } = this
    let goods = 0
    open.length = 0
    used.fill(0)
    for (let index = 0; index < options.length; index++) {
      const { cheapest, choices } = options[index]!
      goods += cheapest.goods
      for (let limit = 0; limit < limits; limit++) used[limit]! += cheapest.uses[limit]!
      best.picks[index] = cheapest
      if (choices.length > 1) open.push(index)
    }
    best.trips = wholeTrips(used)
    best.total = goods + best.trips * tripCost
    if (open.length === 0 || best.trips === 0) return
    this.options = options
    this.tripCost = tripCost
    this.tried = 0
    this.weigh()
    for (let at = 0; at < options.length; at++) this.picked[at] = options[at]!.cheapest
    for (let target = best.trips - 1; target >= 0; target--) if (!this.from(0, goods, target)) return
  }

  // Puts the finishes with a choice in order, and sums up what is still to be had of them.
  weigh(): void {
    const { open, options, limits, saves, perTrip, used } = this
    let most = 0
    for (let limit = 1; limit < limits; limit++) if (used[limit]! > used[most]!) most = limit
    const saving = (index: number) => options[index]!.cheapest.uses[most]! - options[index]!.least[most]!
    if (open.length > 1) open.sort((a, b) => saving(b) - saving(a) || a - b)
    const end = open.length * limits
    for (let limit = 0; limit < limits; limit++) {
      saves[end + limit] = 0
      perTrip[end + limit] = Number.POSITIVE_INFINITY
    }
    for (let at = open.length - 1; at >= 0; at--) {
      const own = options[open[at]!]!
      for (let limit = 0; limit < limits; limit++) {
        const [here, after] = [at * limits + limit, (at + 1) * limits + limit]
        saves[here] = saves[after]! + own.cheapest.uses[limit]! - own.least[limit]!
        perTrip[here] = Math.min(perTrip[after]!, own.perTrip[limit]!)
      }
    }
  }

  /** Whether so few trips may be had at all. */
  from(at: number, goods: number, target: number): boolean {
    const { best, used, limits, saves, perTrip, tripCost } = this
    let more = 0
    let fits = true
    for (let limit = 0; limit < limits; limit++) {
      const over = used[limit]! - target - HAIR
      if (over <= 0) continue
      fits = false
      if (over > saves[at * limits + limit]! + HAIR) return false
      const cost = over * perTrip[at * limits + limit]!
      if (cost > more) more = cost
    }
    if (goods + more + target * tripCost >= best.total - HAIR || this.tried++ >= MOST_TRIED) return true
    if (fits) {
      best.total = goods + target * tripCost
      best.trips = target
      for (let index = 0; index < this.options.length; index++) best.picks[index] = this.picked[index]!
      return true
    }
    const index = this.open[at]!
    const { choices, cheapest } = this.options[index]!
    for (const choice of choices) {
      this.picked[index] = choice
      for (let limit = 0; limit < limits; limit++) used[limit]! += choice.uses[limit]! - cheapest.uses[limit]!
      this.from(at + 1, goods + choice.goods - cheapest.goods, target)
      for (let limit = 0; limit < limits; limit++) used[limit]! -= choice.uses[limit]! - cheapest.uses[limit]!
    }
    this.picked[index] = cheapest
    return true
  }
}
