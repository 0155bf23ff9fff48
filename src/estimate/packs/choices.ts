import { one } from '../../lib/decimal.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { asCosted } from '../table/sold.ts'
import { addAlone, addMixed, type Buying, Found, type Part } from './found.ts'
import type { TripCost } from './leanest.ts'
import { type MoneyOf, purchaseTaxRate } from './money.ts'
import { type Options, optionsOf } from './options.ts'
import { type Column, type Known, Shelf } from './shelf.ts'
import type { Collected, Trips } from './trips.ts'
import { type WayInNumbers, waysInNumbers } from './ways.ts'

/** What a finish may be bought in for so much to order, in yd³|m³; and for so many times each of some volumes. */
export interface OptionsFor {
  (need: number): Options
  all(volumes: Float64Array, times: number): Column
}

// When there are options for so many needs it begins anew.
const MOST_KEPT = 2048

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
    const priced = (need: number) => onlyGoods(need * each)
    return keeping(() => new Shelf(nothing, 1, need => ({ over: need, upTo: need, options: priced(need) })))
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
  return keeping(() => new Shelf(nothing, wide, need => workOut(need, buying, tripCost)))
}

// What was given of a shelf before stays as it was.
function keeping(newShelf: () => Shelf): OptionsFor {
  let shelf = newShelf()
  const withRoom = (needs: number) => {
    if (shelf.options.length + needs > MOST_KEPT) shelf = newShelf()
    return shelf
  }
  const optionsOf = (need: number) => {
    const { options } = withRoom(1)
    return options[shelf.rowOf(need)]!
  }
  return Object.assign(optionsOf, {
    all: (volumes: Float64Array, times: number) => withRoom(volumes.length).column(volumes, times),
  })
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

/** What parts are enough for, by as much as counts as no more than that. */
function enoughFor(parts: Part[]): number {
  const last = parts.at(-1)!
  return parts.reduce((sum, { way, steps }) => sum + way.contents * steps, 0) + last.way.slack
}
