import { one } from '../../lib/decimal.ts'
import { allowanceOf } from '../job/quantities.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { buyersOf } from '../packs/buyers.ts'
import type { Options } from '../packs/choices.ts'
import { purchaseTaxRate } from '../packs/money.ts'
import { wholeTrips } from '../packs/trips.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { asCosted } from '../table/sold.ts'
import type { Points } from './points.ts'
import type { Bounded } from './ranked.ts'
import { atRates, rateOf } from './rates.ts'

/** Buys finishes that are priced by their cost, scenario by scenario, for their volumes in place in yd³|m³. */
export interface ScenarioBuying {
  /** What a finish may be bought in, by its index; null where nothing but its cost is known, or it isn't fetched with others. */
  optionsOf(index: number, volumes: Float64Array): Options[] | null
  /** Of one without such options: what buying and fetching it comes to. */
  costOf(index: number, volumes: Float64Array): Float64Array
  /** What buying finishes by themselves would come to, their trips not whole. */
  aloneOf(options: Options[]): Float64Array
  /** What buying and fetching finishes with each other comes to. */
  riding(columns: Options[][]): Bounded
}

export function scenarioBuying(all: Finish[], table: RateTable, points: Points): ScenarioBuying {
  const trip = rateOf(table.labor.trip, laborHourCost(table)?.toNumber() ?? 0)
  const perTrip = Number(table.costs.truckPerTrip)
  const tripCosts = atRates(trip, points.rate)
  for (let point = 0; point < points.count; point++) tripCosts[point]! += perTrip
  const [least, most] = [trip.lower + perTrip, trip.lower + trip.gap + perTrip]
  const packed = all.filter(({ packs }) => packs.length > 0)
  const buyers = buyersOf(packed, table, { least, most, inCents: false })
  const ride = table.fetching.together !== 'each'
  const taxed = 1 + Number(purchaseTaxRate(table))
  const ordered = all.map(finish => 1 + Number(allowanceOf(finish, table)))
  const buyerOf = all.map(finish => buyers.options[packed.indexOf(finish)])
  const optionsOf = (index: number, volumes: Float64Array) => {
    const [buy, times] = [buyerOf[index]!, ordered[index]!]
    const options = new Array<Options>(points.count)
    for (let point = 0; point < points.count; point++) options[point] = buy(volumes[point]! * times)
    return options
  }
  const aloneOf = (options: Options[]) => leastAlone(options, tripCosts)
  return {
    optionsOf: (index, volumes) => (ride && buyerOf[index] ? optionsOf(index, volumes) : null),
    costOf(index, volumes) {
      if (buyerOf[index]) return aloneOf(optionsOf(index, volumes))
      const units = asCosted(one, all[index]!, table).toNumber()
      const each = Number(all[index]!.materialCost ?? 0) * units * taxed * ordered[index]!
      return volumes.map(volume => Math.max(0, volume) * each)
    },
    aloneOf,
    riding(columns) {
      const bounds = boundsOf(columns, buyers.trips.limits, tripCosts)
      const options = new Array<Options>(columns.length)
      const closer = closerOf(columns, buyers.trips.limits, tripCosts)
      return {
        ...bounds,
        closer(point) {
          const { least, most } = closer(point)
          bounds.atLeast[point] = Math.max(bounds.atLeast[point]!, least)
          bounds.atMost[point] = Math.min(bounds.atMost[point]!, most)
        },
        exactAt(point) {
          for (let index = 0; index < columns.length; index++) options[index] = columns[index]![point]!
          return buyers.find(options, tripCosts[point]!).total
        },
      }
    },
  }
}

/** Of one finish: the purchase whose goods cost least with its load of trips that needn't be whole. */
function leastAlone(options: Options[], tripCosts: Float64Array): Float64Array {
  const costs = new Float64Array(tripCosts.length)
  for (let point = 0; point < costs.length; point++) {
    const { figures, leanest } = options[point]!
    const each = tripCosts[point]!
    let least = Number.POSITIVE_INFINITY
    for (let rank = leanest[0]!; rank < leanest[1]!; rank++) {
      const at = leanest[rank]!
      const cost = figures[at]! + figures[at + 1]! * each
      if (cost < least) least = cost
    }
    costs[point] = least
  }
  return costs
}

/** How many scenarios are looked at to tell which limit of a trip decides in most. */
const LOOKED_AT = 8

/**
 * Between what buying finishes together costs in every scenario: at least it is what is best by the limit that mostly decides
 * where trips needn't be whole, at most the same with whole trips.
 */
function boundsOf(columns: Options[][], limits: number, tripCosts: Float64Array) {
  const count = tripCosts.length
  const [atLeast, atMost] = [new Float64Array(count), new Float64Array(count)]
  const limit = decidingLimit(columns, limits, tripCosts)
  const uses = new Float64Array(limits)
  for (let point = 0; point < count; point++) {
    const each = tripCosts[point]!
    let goods = 0
    for (let other = 0; other < limits; other++) uses[other] = 0
    for (let column = 0; column < columns.length; column++) {
      const options = columns[column]![point]!
      const { figures } = options
      const at = leanestAt(options, limit, each)
      goods += figures[at]!
      for (let other = 0; other < limits; other++) uses[other]! += figures[at + other + 2]!
    }
    let most = 0
    for (let other = 0; other < limits; other++) if (uses[other]! > most) most = uses[other]!
    atMost[point] = goods + each * wholeTrips(most)
    atLeast[point] = Math.min(atMost[point]!, goods + each * uses[limit]!)
  }
  return { atLeast, atMost }
}

/** Where the figures of the purchase stand that is best by one limit where trips needn't be whole. */
function leanestAt({ figures, leanest }: Options, limit: number, each: number): number {
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

/** Closer bounds of one scenario. */
interface Closer {
  least: number
  most: number
}

/**
 * Gives closer bounds of a scenario; what it gives is written over when it is asked again. At most it is also what is best
 * by the tightest limit with whole trips, at least that limit's, or the cheapest goods with the fewest trips that any
 * purchases take.
 */
function closerOf(columns: Options[][], limits: number, tripCosts: Float64Array): (point: number) => Closer {
  const [uses, fewest, lean] = [new Float64Array(limits), new Float64Array(limits), new Float64Array(limits)]
  const closer: Closer = { least: 0, most: 0 }
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
    closer.most = goods + each * wholeTrips(most)
    closer.least = Math.max(leanMost, goods + each * wholeTrips(few))
    if (closer.most > closer.least + each)
      closer.most = Math.min(closer.most, leanestTogether(columns, point, tight, uses, each))
    closer.least = Math.min(closer.least, closer.most)
    return closer
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
