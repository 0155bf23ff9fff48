import { one } from '../../lib/decimal.ts'
import { allowanceOf } from '../job/quantities.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { buyersOf } from '../packs/buyers.ts'
import { purchaseTaxRate } from '../packs/money.ts'
import type { Options } from '../packs/options.ts'
import { type Column, leanestAt, optionsAt } from '../packs/shelf.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { asCosted } from '../table/sold.ts'
import { closerOf } from './closer-bounds.ts'
import type { Points } from './points.ts'
import type { Bounded } from './ranked.ts'
import { atRates, rateOf } from './rates.ts'
import { boundsOf } from './riding-bounds.ts'

/** Buys finishes that are priced by their cost, scenario by scenario, for their volumes in place in yd³|m³. */
export interface ScenarioBuying {
  /** What a finish may be bought in, by its index; null where nothing but its cost is known, or it isn't fetched with others. */
  optionsOf(index: number, volumes: Float64Array): Column | null
  /** Of one without such options: what buying and fetching it comes to. */
  costOf(index: number, volumes: Float64Array): Float64Array
  /** What buying finishes by themselves would come to, their trips not whole. */
  aloneOf(options: Column): Float64Array
  /** What buying and fetching finishes with each other comes to. */
  riding(columns: Column[]): Bounded
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
  const optionsOf = (index: number, volumes: Float64Array) => buyerOf[index]!.all(volumes, ordered[index]!)
  const aloneOf = (options: Column) => leastAlone(options, tripCosts)
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
      const bounds = boundsOf(columns, buyers.trips, tripCosts)
      const options = new Array<Options>(columns.length)
      const closer = closerOf(columns, buyers.trips, tripCosts)
      return {
        ...bounds,
        closer(point) {
          const { least, most } = closer(point)
          bounds.atLeast[point] = Math.max(bounds.atLeast[point]!, least)
          bounds.atMost[point] = Math.min(bounds.atMost[point]!, most)
        },
        exactAt(point) {
          for (let index = 0; index < columns.length; index++)
            options[index] = optionsAt(columns[index]!, point)
          return buyers.find(options, tripCosts[point]!).total
        },
      }
    },
  }
}

/** Of one finish: the purchase whose goods cost least with its load of trips that needn't be whole. */
function leastAlone({ shelf, rows }: Column, tripCosts: Float64Array): Float64Array {
  const { figures } = shelf
  const costs = new Float64Array(tripCosts.length)
  for (let point = 0; point < costs.length; point++) {
    const each = tripCosts[point]!
    const at = leanestAt(shelf, rows[point]!, LOAD, each)
    costs[point] = figures[at]! + figures[at + 1]! * each
  }
  return costs
}

// Figures are goods, load and what is used of each limit.
const LOAD = -1
