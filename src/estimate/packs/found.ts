import { type Collected, HAIR } from './trips.ts'
import type { WayInNumbers } from './ways.ts'

/** Of how many numbers of loose steps it is tried at most to fill the rest with bags. */
const MOST_MIXED = 200

/** How many fewer steps are looked at for how far down a purchase is the best. */
const MOST_FEWER = 64

/** So many steps of one way to buy. */
export interface Part {
  way: WayInNumbers
  steps: number
}

/** One purchase of a finish: what its goods cost in money, and what of it is collected. */
export interface Choice extends Collected {
  goods: number
  parts: Part[]
  /** How much of each limit of a trip it uses up, and of the one that it uses up most. */
  uses: Float64Array
  load: number
}

// Of those that are left it is worked out.
const UNKNOWN = new Float64Array()

/** What a finish is bought by. */
export interface Buying {
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

/** Some steps of one way, and maybe of a second one. */
interface Numbers {
  first: WayInNumbers
  steps: number
  second: WayInNumbers | null
  count: number
}

/** The purchases found for a need, and what fewer of each would do for a smaller one. */
export class Found {
  choices: Choice[] = []
  readonly buying: Buying
  private over = Number.NEGATIVE_INFINITY
  private readonly fewest: Numbers[] = []

  constructor(buying: Buying) {
    this.buying = buying
  }

  add(first: WayInNumbers, steps: number, second: WayInNumbers | null = null, count = 0): void {
    const choice = this.of(first, steps, second, count)
    if (this.beaten(choice.goods, choice)) return
    const parts = [{ way: first, steps }, ...(second ? [{ way: second, steps: count }] : [])]
    this.choices.push({ ...choice, parts, uses: UNKNOWN, load: 0 })
  }

  /** Says that with one of the last way less they would do for a smaller need. */
  isFewest(first: WayInNumbers, steps: number, second: WayInNumbers | null = null, count = 0): void {
    this.fewest.push({ first, steps, second, count })
  }

  /** Says that nothing is known of needs so small. */
  onlyOver(need: number): void {
    if (need > this.over) this.over = need
  }

  /** Whether one of those found is as good as any at such a price that collects so much, or more, whatever rides along. */
  beaten(goods: number, collected: Collected): boolean {
    for (const choice of this.choices)
      if (goods >= choice.goods + this.buying.tripsFor(choice, collected)) return true
    return false
  }

  best(): Choice[] {
    const { tripsFor } = this.buying
    this.choices = this.choices.filter(
      (choice, at) =>
        !this.choices.some(
          (other, index) => index > at && choice.goods > other.goods + tripsFor(other, choice) + HAIR,
        ),
    )
    return this.choices
  }

  /** Above what need nothing is better than the best: as far down as fewer of something would do that aren't beaten. */
  holdsOver(): number {
    for (const { first, steps, second, count } of this.fewest) {
      const last = second ?? first
      const whole = second ? steps * first.contents : 0
      const fewest = second ? count : steps
      for (let less = 1; fewest - less >= last.least; less++) {
        const fewer = fewest - less
        const level = whole + fewer * last.contents + last.slack
        if (level <= this.over) break
        if (less > MOST_FEWER) {
          this.onlyOver(level)
          break
        }
        const one = second ? this.of(first, steps, second, fewer) : this.of(first, fewer, null, 0)
        if (this.beaten(one.goods, one)) continue
        this.over = level
        break
      }
    }
    return this.over
  }

  private of(first: WayInNumbers, steps: number, second: WayInNumbers | null, count: number) {
    const one = { goods: first.costOf(steps), loose: 0, packed: 0 }
    if (!first.way.delivered) one[first.loose ? 'loose' : 'packed'] = first.contents * steps
    if (second === null) return one
    one.goods += second.costOf(count)
    if (!second.way.delivered) one[second.loose ? 'loose' : 'packed'] += second.contents * count
    return one
  }
}

/** The fewest steps that do, or as many as bring something down in price. */
function stepsFor(way: WayInNumbers, fewest: number): number[] {
  const steps = Math.max(way.least, fewest)
  return [steps, ...way.turns.filter(turn => turn > steps)]
}

/** Buys in one way alone. */
export function addAlone(way: WayInNumbers, need: number, found: Found): void {
  const fewest = Math.ceil(need / way.contents - HAIR)
  if (fewest > way.least) found.isFewest(way, fewest)
  for (const steps of stepsFor(way, fewest)) found.add(way, steps)
}

/** Some steps loose and the rest in bags, begun where this is cheapest and gone on with for as long as it may pay. */
export function addMixed(loose: WayInNumbers, packed: WayInNumbers, need: number, found: Found): void {
  const most = Math.ceil(need / loose.contents - HAIR) - 1
  const fewest = Math.max(1, loose.least)
  if (most < fewest) return
  const perVolume = packed.cheapest(Number.POSITIVE_INFINITY) / packed.contents
  const down = loose.cheapest(most) < perVolume * loose.contents
  const [first, last, by] = down
    ? [most, Math.max(fewest, most - MOST_MIXED), -1]
    : [fewest, Math.min(most, fewest + MOST_MIXED), 1]
  // What is found has to hold down to the next smaller number of bags.
  const low = need - packed.contents
  found.onlyOver(low)
  // Counted, since one more of very many is the same number.
  for (let tried = 0; tried <= MOST_MIXED; tried++) {
    const steps = first + by * tried
    const bags = Math.ceil((need - steps * loose.contents) / packed.contents - HAIR)
    if (bags > packed.least) found.isFewest(loose, steps, packed, bags)
    for (const count of stepsFor(packed, bags)) found.add(loose, steps, packed, count)
    if (steps === last || noMorePays(steps)) return
  }

  // Between a number of loose steps and the last that is tried goods cost no less than at the better of the two.
  function noMorePays(steps: number): boolean {
    const [fewer, more] = [Math.min(steps, last), Math.max(steps, last)]
    const each = loose.cheapest(more)
    const goodsAt = (count: number) => count * each + perVolume * (low - count * loose.contents)
    const fees = loose.fee(more) + packed.fee(Number.POSITIVE_INFINITY)
    const alike = found.buying.alike && !loose.way.delivered && !packed.way.delivered
    const collected = {
      loose: loose.way.delivered ? 0 : fewer * loose.contents,
      packed: packed.way.delivered ? 0 : Math.max(0, low - (alike ? fewer : more) * loose.contents),
    }
    // Some cents for the amounts that are rounded.
    const least = (Math.min(goodsAt(steps), goodsAt(last)) + fees) * found.buying.taxed - 0.05
    return found.beaten(least, collected)
  }
}
