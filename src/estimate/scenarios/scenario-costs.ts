import { allowanceOf } from '../job/quantities.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { buyersOf } from '../packs/buyers.ts'
import type { Options } from '../packs/choices.ts'
import { priceFactor } from '../price/cost-plus.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { type Points, SCENARIOS } from './points.ts'
import { rateOf } from './rates.ts'
import type { ScenarioFinish } from './scenario-beds.ts'

/**
 * What the finishes priced by their cost come to together in every scenario, in money, for what their beds take. Where
 * about will do, only what isn't as it was the first time is priced again, its trips by themselves and not whole.
 */
export type PricesByCost = (finishes: ScenarioFinish[], volumes: VolumesOf, about: boolean) => Float64Array

/** A finish's volume in every scenario, in yd³|m³: in place, and what would take as long with nothing in the way. */
export interface VolumesOf {
  inPlace: (finish: ScenarioFinish) => Float64Array
  slowed: (finish: ScenarioFinish) => Float64Array
}

/** What the beds of a finish come to apart from buying it, and what it may be bought in. */
interface Parts {
  laid: Float64Array
  options: Options[]
  /** What buying it by itself comes to; about, where it rides with others. */
  alone: Float64Array
}

/**
 * Prices finishes by their cost, bought and fetched together: labor stands between its lower and its upper hours where
 * every rate of the scenario does. What the same beds may be bought in is found once.
 */
export function pricesByCost(all: Finish[], table: RateTable, points: Points): PricesByCost {
  const hour = laborHourCost(table)?.toNumber() ?? 0
  const factor = priceFactor(table).toNumber()
  const spread = rateOf(table.labor.spread, hour)
  const spreads = points.rate.map(stand => spread.lower + spread.gap * stand)
  const buying = buyingOf(all, table, points)
  const partsOf = (index: number, beds: ScenarioFinish, { inPlace, slowed }: VolumesOf): Parts => {
    const hours = slowed(beds)
    const laid = new Float64Array(SCENARIOS)
    for (let point = 0; point < SCENARIOS; point++) laid[point] = hours[point]! * spreads[point]!
    const options = buying.optionsOf(index, inPlace(beds))
    let alone: Float64Array | undefined
    return {
      laid,
      options,
      // Where finishes ride together it is asked for only to compare changes.
      get alone() {
        alone ??= buying.aloneOf(options)
        return alone
      },
    }
  }
  const known = new WeakMap<ScenarioFinish, Parts>()
  let first: { parts: Parts[]; bought: Float64Array } | undefined
  const boughtFor = (parts: Parts[], about: boolean) => {
    if (table.fetching.together === 'each') return sumOf(parts.map(({ alone }) => alone))
    if (!about || !first) return buying.costsOf(parts.map(({ options }) => options))
    const bought = first.bought.slice()
    parts.forEach((part, index) => {
      const was = first!.parts[index]!
      if (part === was) return
      for (let point = 0; point < SCENARIOS; point++) bought[point]! += part.alone[point]! - was.alone[point]!
    })
    return bought
  }
  return (finishes, volumes, about) => {
    const parts = finishes.map((beds, index) => {
      const found = known.get(beds) ?? partsOf(index, beds, volumes)
      known.set(beds, found)
      return found
    })
    const bought = boughtFor(parts, about)
    first ??= { parts, bought }
    const prices = bought.slice()
    for (const { laid } of parts) addTo(prices, laid)
    for (let point = 0; point < SCENARIOS; point++) prices[point]! *= factor
    return prices
  }
}

/** What finishes may be bought in for their volumes in place, and what buying and fetching them comes to, scenario by scenario. */
function buyingOf(all: Finish[], table: RateTable, points: Points) {
  const trip = rateOf(table.labor.trip, laborHourCost(table)?.toNumber() ?? 0)
  const perTrip = Number(table.costs.truckPerTrip)
  const tripCosts = points.rate.map(stand => trip.lower + trip.gap * stand + perTrip)
  const [least, most] = [trip.lower + perTrip, trip.lower + trip.gap + perTrip]
  const { options: buyers, find } = buyersOf(all, table, { least, most, inCents: false })
  return {
    optionsOf(index: number, volumes: Float64Array): Options[] {
      const buy = buyers[index]!
      const ordered = 1 + Number(allowanceOf(all[index]!, table))
      const options = new Array<Options>(SCENARIOS)
      for (let point = 0; point < SCENARIOS; point++) options[point] = buy(volumes[point]! * ordered)
      return options
    },
    aloneOf(options: Options[]): Float64Array {
      const costs = new Float64Array(SCENARIOS)
      for (let point = 0; point < SCENARIOS; point++) {
        const { choices } = options[point]!
        let least = Number.POSITIVE_INFINITY
        for (let which = 0; which < choices.length; which++) {
          const { goods, load } = choices[which]!
          const cost = goods + load * tripCosts[point]!
          if (cost < least) least = cost
        }
        costs[point] = least
      }
      return costs
    },
    costsOf(columns: Options[][]): Float64Array {
      const costs = new Float64Array(SCENARIOS)
      const options: Options[] = []
      for (let point = 0; point < SCENARIOS; point++) {
        for (let index = 0; index < columns.length; index++) options[index] = columns[index]![point]!
        costs[point] = find(options, tripCosts[point]!).total
      }
      return costs
    },
  }
}

function sumOf(columns: Float64Array[]): Float64Array {
  const sums = new Float64Array(SCENARIOS)
  for (const column of columns) addTo(sums, column)
  return sums
}

function addTo(sums: Float64Array, more: Float64Array): void {
  for (let point = 0; point < SCENARIOS; point++) sums[point]! += more[point]!
}

/** Setting up and the truck, for a job with a finish priced by its cost, in every scenario. */
export function setUpsByCost(table: RateTable, points: Points): Float64Array {
  const hour = laborHourCost(table)?.toNumber() ?? 0
  const setUp = rateOf(table.labor.setUp, hour)
  const factor = priceFactor(table).toNumber()
  const truck = Number(table.costs.truckPerJob)
  return points.rate.map(stand => factor * (setUp.lower + setUp.gap * stand + truck))
}
