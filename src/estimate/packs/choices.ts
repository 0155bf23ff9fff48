import { one } from '../../lib/decimal.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { asCosted } from '../table/sold.ts'
import { addAlone, addMixed, type Buying, type Choice, Found, type Part } from './found.ts'
import { leanestOf, type TripCost } from './leanest.ts'
import { type MoneyOf, purchaseTaxRate } from './money.ts'
import type { Collected, Trips } from './trips.ts'
import { type WayInNumbers, waysInNumbers } from './ways.ts'

/**
 * The purchases of a finish of which one is best, whatever rides along. `rising` has them from the cheapest goods up; saved
 * is how much dearer ones save of each limit at most. figures are those of `rising` in a row: goods, load and uses of each;
 * leanest says which of them may be best where trips needn't be whole.
 */
export interface Options {
  choices: Choice[]
  cheapest: Choice
  rising: Choice[]
  saved: Float64Array
  figures: Float64Array
  leanest: Uint16Array
}

/** What a finish may be bought in for so much to order, in yd³|m³. */
export type OptionsFor = (need: number) => Options

// Needs beyond so many buckets aren't kept, and when there are options for so many needs it begins anew.
const MOST_BUCKETS = 16_384
const MOST_KEPT = 2048

/** For what needs options hold: above `over` and up to `upTo`. */
interface Known {
  over: number
  upTo: number
  options: Options
}

/** The options that are known for needs in one bucket; two of `holds` for each: above what need they hold, and up to what. */
interface Bucket {
  holds: Float64Array
  options: Options[]
}

/**
 * Buys one finish, the index-th of those that ride together, where a trip costs between so much and so much. A purchase is of one
 * way in any number, or of a loose one and the rest in bags or bales where the table lets them be mixed. Options are the
 * same for all needs between two that something more has to be bought for, and worked out once for these.
 */
export function optionsFor(
  finish: Finish,
  index: number,
  trips: Trips,
  tripCost: TripCost,
  table: RateTable,
  moneyOf: MoneyOf,
): OptionsFor {
  const unused = new Float64Array(trips.limits)
  const onlyGoods = (goods: number) =>
    optionsOf([{ goods, loose: 0, packed: 0, parts: [], uses: unused, load: 0 }], tripCost)
  const nothing = onlyGoods(0)
  const ways = waysInNumbers(finish, table, moneyOf)
  const taxed = 1 + Number(purchaseTaxRate(table))
  if (ways.length === 0) {
    const units = asCosted(one, finish, table).toNumber()
    const each = Number(finish.materialCost ?? 0) * units * taxed
    return need => onlyGoods(Math.max(0, need) * each)
  }
  const mixed = table.fetching.mixed && finish.pinned === null
  const pairs = mixed ? pairsOf(ways) : []
  const tripsFor = (one: Collected, other: Collected) => {
    const more = trips.most(index, one, other)
    return more * (more > 0 ? tripCost.most : tripCost.least)
  }
  const alike = table.fetching.together !== 'apart'
  const usesOf = (one: Collected) => trips.usesOf(index, one)
  const buying: Buying = { ways, pairs, tripsFor, usesOf, taxed, alike }
  const wide = Math.min(...ways.map(({ contents }) => contents))
  let buckets: Bucket[] = []
  let kept = 0
  return need => {
    if (need <= 0) return nothing
    const place = Math.floor(need / wide)
    if (place >= MOST_BUCKETS) return workOut(need, buying, tripCost).options
    const bucket = buckets[place]
    if (bucket !== undefined) {
      const { holds, options } = bucket
      for (let at = 0; at < options.length; at++)
        if (need > holds[2 * at]! && need <= holds[2 * at + 1]!) return options[at]!
    }
    if (kept++ >= MOST_KEPT) [buckets, kept] = [[], 1]
    const { over, upTo, options } = workOut(need, buying, tripCost)
    const here = buckets[place]
    buckets[place] = {
      holds: Float64Array.of(...(here?.holds ?? []), over, upTo),
      options: [...(here?.options ?? []), options],
    }
    return options
  }
}

function pairsOf(ways: WayInNumbers[]): [WayInNumbers, WayInNumbers][] {
  const packed = ways.filter(({ loose }) => !loose)
  return ways
    .filter(({ loose }) => loose)
    .flatMap(loose => packed.map(bags => [loose, bags] as [WayInNumbers, WayInNumbers]))
}

function workOut(need: number, buying: Buying, tripCost: TripCost): Known {
  const found = new Found(buying)
  for (const way of buying.ways) addAlone(way, need, found)
  for (const [loose, packed] of buying.pairs) addMixed(loose, packed, need, found)
  const choices = found.best()
  for (const choice of choices) {
    choice.uses = buying.usesOf(choice)
    choice.load = choice.uses.reduce((most, use) => Math.max(most, use), 0)
  }
  const upTo = Math.min(...choices.map(({ parts }) => enoughFor(parts)))
  return { over: found.holdsOver(), upTo, options: optionsOf(choices, tripCost) }
}

function optionsOf(choices: Choice[], tripCost: TripCost): Options {
  const rising = choices.length === 1 ? choices : [...choices].sort((a, b) => a.goods - b.goods)
  const [cheapest] = rising as [Choice]
  const saved = cheapest.uses.map((use, limit) =>
    rising.reduce((most, { uses }) => Math.max(most, use - uses[limit]!), 0),
  )
  const figures = Float64Array.from(rising.flatMap(({ goods, load, uses }) => [goods, load, ...uses]))
  const leanest = leanestOf(figures, cheapest.uses.length + 2, tripCost)
  return { choices, cheapest, rising, saved, figures, leanest }
}

/** What parts are enough for, by as much as counts as no more than that. */
function enoughFor(parts: Part[]): number {
  const last = parts.at(-1)!
  return parts.reduce((sum, { way, steps }) => sum + way.contents * steps, 0) + last.way.slack
}
