import type { Finish, RateTable } from '../table/rate-table.ts'
import { type MoneyOf, purchaseTaxRate } from './money.ts'
import { type Collected, HAIR, type Trips } from './trips.ts'
import { type WayInNumbers, waysInNumbers } from './ways.ts'

/** So many steps of one way to buy. */
export interface Part {
  way: WayInNumbers
  steps: number
}

/** One purchase of a finish: what its goods cost in money, and what of it is collected. */
export interface Choice extends Collected {
  goods: number
  parts: Part[]
  /** How much of each limit of a trip it uses up. */
  uses: Float64Array
}

/**
 * The purchases of a finish of which one is best, whatever rides along; the one with the cheapest goods, the least that any
 * uses up of each limit, and what goods cost more at least for each trip less of it.
 */
export interface Options {
  choices: Choice[]
  cheapest: Choice
  least: Float64Array
  perTrip: Float64Array
}

/** What a finish may be bought in for so much to order, in yd³|m³. */
export type OptionsFor = (need: number) => Options

/** Of how many numbers of loose steps it is tried at most to fill the rest with bags. */
const MOST_MIXED = 200
// Buckets of needs beyond these aren't kept.
const MOST_BUCKETS = 16_384

// Of those that are left it is worked out.
const UNKNOWN = new Float64Array()

/** For what needs options hold: above `over` and up to `upTo`. */
interface Known {
  over: number
  upTo: number
  options: Options
}

interface Buying {
  ways: WayInNumbers[]
  pairs: [loose: WayInNumbers, packed: WayInNumbers][]
  /** What buying one thing and not the other can cost more in trips, at most. */
  tripsFor(one: Collected, other: Collected): number
  usesOf(one: Collected): Float64Array
  /** What the tax on purchases makes of a cost. */
  taxed: number
  /** Whether what is loose rides as what is packed does. */
  alike: boolean
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
  tripCost: { least: number; most: number },
  table: RateTable,
  moneyOf: MoneyOf,
): OptionsFor {
  const unused = new Float64Array(trips.limits)
  const onlyGoods = (goods: number) =>
    optionsOf([{ goods, loose: 0, packed: 0, parts: [], uses: unused }])
  const nothing = onlyGoods(0)
  const ways = waysInNumbers(finish, table, moneyOf)
  const taxed = 1 + Number(purchaseTaxRate(table))
  if (ways.length === 0) {
    const each = Number(finish.materialCost ?? 0) * taxed
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
  const buckets: Known[][] = []
  return need => {
    if (need <= 0) return nothing
    const bucket = Math.floor(need / wide)
    if (bucket >= MOST_BUCKETS) return workOut(need, buying).options
    buckets[bucket] ??= []
    for (const { over, upTo, options } of buckets[bucket]) if (need > over && need <= upTo) return options
    const known = workOut(need, buying)
    buckets[bucket].push(known)
    return known.options
  }
}

function pairsOf(ways: WayInNumbers[]): [WayInNumbers, WayInNumbers][] {
  const packed = ways.filter(({ loose }) => !loose)
  return ways.filter(({ loose }) => loose).flatMap(loose => packed.map(bags => [loose, bags] as [WayInNumbers, WayInNumbers]))
}

function workOut(need: number, buying: Buying): Known {
  const found = new Found(buying)
  for (const way of buying.ways) addAlone(way, need, found)
  for (const [loose, packed] of buying.pairs) addMixed(loose, packed, need, found)
  const choices = found.best()
  const upTo = Math.min(...choices.map(({ parts }) => enoughFor(parts)))
  for (const choice of choices) choice.uses = buying.usesOf(choice)
  return { over: found.over, upTo, options: optionsOf(choices) }
}

function optionsOf(choices: Choice[]): Options {
  const cheapest = choices.reduce((best, choice) => (choice.goods < best.goods ? choice : best))
  const least = cheapest.uses.map((use, limit) =>
    choices.reduce((min, { uses }) => Math.min(min, uses[limit]!), use),
  )
  const perTrip = cheapest.uses.map((use, limit) =>
    choices.reduce((min, { goods, uses }) => {
      const saved = use - uses[limit]!
      return saved > 0 ? Math.min(min, (goods - cheapest.goods) / saved) : min
    }, Number.POSITIVE_INFINITY),
  )
  return { choices, cheapest, least, perTrip }
}

/** What parts are enough for, by as much as counts as no more than that. */
function enoughFor(parts: Part[]): number {
  const last = parts.at(-1)!
  return parts.reduce((sum, { way, steps }) => sum + way.contents * steps, 0) + last.way.slack
}

/** The purchases found for a need, and below what other need there are more of them. */
class Found {
  choices: Choice[] = []
  over = Number.NEGATIVE_INFINITY
  readonly buying: Buying

  constructor(buying: Buying) {
    this.buying = buying
  }

  add(...parts: Part[]): void {
    const choice: Choice = { goods: 0, loose: 0, packed: 0, parts, uses: UNKNOWN }
    for (const { way, steps } of parts) {
      choice.goods += way.costOf(steps)
      if (way.way.delivered) continue
      if (way.loose) choice.loose += way.contents * steps
      else choice.packed += way.contents * steps
    }
    if (!this.choices.some(other => this.beats(other, choice.goods, choice))) this.choices.push(choice)
  }

  /** Less would do up to this need. */
  fewerUpTo(need: number): void {
    if (need > this.over) this.over = need
  }

  /** Whether a purchase is as good as any at such a price that collects so much, or more, whatever rides along. */
  beats(choice: Choice, goods: number, collected: Collected): boolean {
    return goods >= choice.goods + this.buying.tripsFor(choice, collected)
  }

  best(): Choice[] {
    return this.choices.filter(
      (choice, at) =>
        !this.choices.some(
          (other, index) =>
            index > at && choice.goods > other.goods + this.buying.tripsFor(other, choice) + HAIR,
        ),
    )
  }
}

/** The fewest steps that do, or as many as bring something down in price. */
function stepsFor(way: WayInNumbers, need: number): number[] {
  const fewest = Math.max(way.least, Math.ceil(need / way.contents - HAIR))
  return [fewest, ...way.turns.filter(turn => turn > fewest)]
}

function addAlone(way: WayInNumbers, need: number, found: Found): void {
  const fewest = Math.ceil(need / way.contents - HAIR)
  if (fewest > way.least) found.fewerUpTo((fewest - 1) * way.contents + way.slack)
  for (const steps of stepsFor(way, need)) found.add({ way, steps })
}

/** Some steps loose and the rest in bags, begun where this is cheapest and gone on with for as long as it may pay. */
function addMixed(loose: WayInNumbers, packed: WayInNumbers, need: number, found: Found): void {
  const most = Math.ceil(need / loose.contents - HAIR) - 1
  const fewest = Math.max(1, loose.least)
  if (most < fewest) return
  const perVolume = packed.cheapest(Number.POSITIVE_INFINITY) / packed.contents
  const down = loose.cheapest(most) < perVolume * loose.contents
  const [first, last, by] = down
    ? [most, Math.max(fewest, most - MOST_MIXED), -1]
    : [fewest, Math.min(most, fewest + MOST_MIXED), 1]
  // What is found has to hold down to the next smaller number of bags.
  found.fewerUpTo(need - packed.contents)
  for (let steps = first; ; steps += by) {
    const rest = need - steps * loose.contents
    const bags = Math.ceil(rest / packed.contents - HAIR)
    if (bags > packed.least)
      found.fewerUpTo(steps * loose.contents + (bags - 1) * packed.contents + packed.slack)
    for (const count of stepsFor(packed, rest))
      found.add({ way: loose, steps }, { way: packed, steps: count })
    if (steps === last || noMorePays(steps, last)) return
  }

  // Between a number of loose steps and the last that is tried goods cost no less than at the better of the two.
  function noMorePays(steps: number, last: number): boolean {
    const low = need - packed.contents
    const each = loose.cheapest(Math.max(steps, last))
    const goodsAt = (count: number) => count * each + perVolume * (low - count * loose.contents)
    const fees = loose.fee(Math.max(steps, last)) + packed.fee(Number.POSITIVE_INFINITY)
    const [fewer, more] = [Math.min(steps, last), Math.max(steps, last)].map(count => count * loose.contents)
    const alike = found.buying.alike && !loose.way.delivered && !packed.way.delivered
    const collected = {
      loose: loose.way.delivered ? 0 : fewer!,
      packed: packed.way.delivered ? 0 : Math.max(0, low - (alike ? fewer! : more!)),
    }
    // Some cents for the amounts that are rounded.
    const least = (Math.min(goodsAt(steps), goodsAt(last)) + fees) * found.buying.taxed - 0.05
    return found.choices.some(choice => found.beats(choice, least, collected))
  }
}
