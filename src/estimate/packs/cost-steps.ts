import { contentsOf, type Way, waysOf } from '../table/pack.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { tripVolume } from './loads.ts'
import { purchaseTaxRate } from './offers.ts'
import { turningPoints } from './purchase.ts'

// A quotient of floats this little above a whole number is that number.
const HAIR = 1e-9
// More steps than these aren't kept.
const MOST_STEPS = 16_384

/**
 * A way to buy as numbers: what a step gives in yd³|m³, and what so many steps cost and how many trips fetch them; also
 * what more of them cost where something gets cheaper, in so far as the cost of a trip decides.
 */
interface WayInNumbers {
  contents: number
  least: number
  at(steps: number): Bought[]
}

interface Bought {
  goods: number
  trips: number
}

/** What buying so much of a finish costs, in money: need in yd³|m³ to order, tripCost in money for a trip. */
export type Buyer = (need: number, tripCost: number) => number

/**
 * Buys a finish for as many scenarios as there are, in the cheapest way, or the pinned one; for nothing where its cost
 * isn't known. Every number of steps is priced once.
 */
export function buyerOf(finish: Finish, table: RateTable): Buyer {
  const all = waysOf(finish.packs)
  if (all.length === 0) {
    const each = Number(finish.materialCost ?? 0) * (1 + Number(purchaseTaxRate(table)))
    return need => need * each
  }
  const pinned = all.filter(({ key }) => key === finish.pinned)
  const ways = (pinned.length > 0 ? pinned : all).map(way => inNumbers(way, finish, table))
  return (need, tripCost) => {
    let least = Number.POSITIVE_INFINITY
    for (const way of ways) {
      for (const { goods, trips } of way.at(stepsFor(need, way))) {
        const cost = goods + trips * tripCost
        if (cost < least) least = cost
      }
    }
    return least
  }
}

function stepsFor(need: number, { contents, least: fewest }: WayInNumbers): number {
  return need <= 0 ? 0 : Math.max(fewest, Math.ceil(need / contents - HAIR))
}

function inNumbers(way: Way, finish: Finish, table: RateTable): WayInNumbers {
  const { pack, delivered } = way
  const step = Number(pack.step)
  const contents = contentsOf(pack, unitSystem(table.units)).toNumber() * step
  const prices = pack.prices.map(({ from, each }) => [Number(from), Number(each)] as const)
  const fee = delivered ? Number(pack.delivered?.fee ?? 0) : 0
  const free =
    delivered && pack.delivered?.freeFrom ? Number(pack.delivered.freeFrom) : Number.POSITIVE_INFINITY
  const carried = delivered ? null : tripVolume(table.carriers, finish.densityWet)?.toNumber()
  const taxed = 1 + Number(purchaseTaxRate(table))
  const plain = (steps: number) => {
    const units = steps * step
    const each = prices.findLast(([from]) => units >= from - HAIR)![1]
    return units * each + (units >= free - HAIR ? 0 : fee)
  }
  const turns = turningPoints(way).map(from => Math.ceil(Number(from) / step - HAIR))
  const tripsAt = (steps: number) =>
    carried === null ? 0 : carried === undefined ? 1 : Math.ceil((steps * contents) / carried - HAIR)
  const bought = (steps: number) => ({ goods: plain(steps) * taxed, trips: tripsAt(steps) })
  const known: Bought[][] = [[{ goods: 0, trips: 0 }]]
  const price = (steps: number): Bought[] => {
    const all = [steps, ...turns.filter(turn => turn > steps)].map(bought)
    return all.filter(one => !all.some(other => isBetter(other, one)))
  }
  const at = (steps: number) => {
    if (steps >= MOST_STEPS) return price(steps)
    known[steps] ??= price(steps)
    return known[steps]
  }
  return { contents, least: Math.ceil(Number(pack.least) / step - HAIR), at }
}

function isBetter(one: Bought, than: Bought): boolean {
  return one.goods < than.goods ? one.trips <= than.trips : one.goods === than.goods && one.trips < than.trips
}
