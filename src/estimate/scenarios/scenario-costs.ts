import { laborHourCost } from '../labor/labor-hour.ts'
import type { Column } from '../packs/shelf.ts'
import { priceFactor } from '../price/cost-plus.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { type Points, valuesOf } from './points.ts'
import type { Bounded } from './ranked.ts'
import { atRates, rateOf } from './rates.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { scenarioBuying } from './scenario-buying.ts'

/**
 * What the finishes priced by their cost come to together in every scenario, in money and before what is put on a cost, for
 * what their beds take: `sure`, and what those come to that are bought and fetched with each other.
 */
export interface ByCost {
  sure: Float64Array
  riding: Bounded | null
}

/**
 * Where about will do, only what isn't as it was the first time is priced again, its trips by themselves and not whole. What
 * was found the first time can be had for some scenarios alone.
 */
export interface PricesByCost {
  (finishes: ScenarioFinish[], volumes: VolumesOf, about: boolean): ByCost
  firstOf(scenarios: Uint16Array): Known
}

/** A finish's volume in every scenario, in yd³|m³: in place, and what would take as long with nothing in the way. */
export interface VolumesOf {
  inPlace: (finish: ScenarioFinish) => Float64Array
  slowed: (finish: ScenarioFinish) => Float64Array
}

/** What the beds of a finish come to apart from what rides with others, and what this may be bought in. */
interface Parts {
  sure: Float64Array
  options: Column | null
  /** What buying that by itself comes to, its trips not whole. */
  alone: Float64Array | null
}

/** What was found of finishes. */
export interface Known extends ByCost {
  finishes: ScenarioFinish[]
  parts: Parts[]
}

/**
 * Prices finishes by their cost, bought and fetched together: labor stands between its lower and its upper hours where
 * every rate of the scenario does. What the same beds may be bought in is found once; `first` is what is known already.
 */
export function pricesByCost(all: Finish[], table: RateTable, points: Points, first?: Known): PricesByCost {
  const buying = scenarioBuying(all, table, points)
  const spread = rateOf(table.labor.spread, laborHourCost(table)?.toNumber() ?? 0)
  const spreads = atRates(spread, points.rate)
  const partsOf = (index: number, beds: ScenarioFinish, { inPlace, slowed }: VolumesOf): Parts => {
    const hours = slowed(beds)
    const volumes = inPlace(beds)
    const options = buying.optionsOf(index, volumes)
    const sure = options ? new Float64Array(points.count) : buying.costOf(index, volumes)
    for (let point = 0; point < points.count; point++) sure[point]! += hours[point]! * spreads[point]!
    return { sure, options, alone: null }
  }
  const aloneOf = (parts: Parts) => {
    parts.alone ??= buying.aloneOf(parts.options!)
    return parts.alone
  }
  const ridingOf = (parts: Parts[]) => {
    const columns = parts.flatMap(({ options }) => (options ? [options] : []))
    return columns.length > 0 ? buying.riding(columns) : null
  }
  const known = new WeakMap(first?.finishes.map((beds, index) => [beds, first!.parts[index]!]))
  const prices = (finishes: ScenarioFinish[], volumes: VolumesOf, about: boolean) => {
    const parts = finishes.map((beds, index) => {
      const found = known.get(beds) ?? partsOf(index, beds, volumes)
      known.set(beds, found)
      return found
    })
    if (!first) {
      const sure = new Float64Array(points.count)
      for (const part of parts) addChange(sure, part.sure)
      first = { finishes, parts, sure, riding: ridingOf(parts) }
      return first
    }
    const sure = first.sure.slice()
    for (const [index, part] of parts.entries()) {
      const was = first.parts[index]!
      if (part === was) continue
      addChange(sure, part.sure, was.sure)
      if (about && part.options) addChange(sure, aloneOf(part), aloneOf(was))
    }
    return { sure, riding: about ? first.riding : ridingOf(parts) }
  }
  const firstOf = (scenarios: Uint16Array) => {
    if (!first) throw new Error('nothing was found yet')
    return someOf(first, scenarios)
  }
  return Object.assign(prices, { firstOf })
}

function someOf({ finishes, parts, sure, riding }: Known, scenarios: Uint16Array): Known {
  return {
    finishes,
    parts: parts.map(part => ({
      sure: valuesOf(scenarios, part.sure),
      options: part.options && someRows(part.options, scenarios),
      alone: null,
    })),
    sure: valuesOf(scenarios, sure),
    riding: riding && {
      atLeast: valuesOf(scenarios, riding.atLeast),
      atMost: valuesOf(scenarios, riding.atMost),
      closer: () => {},
      exactAt: index => riding.exactAt(scenarios[index]!),
    },
  }
}

function someRows({ shelf, rows }: Column, scenarios: Uint16Array): Column {
  const some = new Uint16Array(scenarios.length)
  for (let index = 0; index < some.length; index++) some[index] = rows[scenarios[index]!]!
  return { shelf, rows: some }
}

function addChange(sums: Float64Array, more: Float64Array, less?: Float64Array): void {
  if (less) for (let point = 0; point < sums.length; point++) sums[point]! += more[point]! - less[point]!
  else for (let point = 0; point < sums.length; point++) sums[point]! += more[point]!
}

/** Setting up and the truck, for a job with a finish priced by its cost, in every scenario. */
export function setUpsByCost(table: RateTable, points: Points): Float64Array {
  const hour = laborHourCost(table)?.toNumber() ?? 0
  const setUp = rateOf(table.labor.setUp, hour)
  const factor = priceFactor(table).toNumber()
  const truck = Number(table.costs.truckPerJob)
  const setUps = new Float64Array(points.count)
  for (let point = 0; point < points.count; point++)
    setUps[point] = factor * (setUp.lower + setUp.gap * points.rate[point]! + truck)
  return setUps
}
