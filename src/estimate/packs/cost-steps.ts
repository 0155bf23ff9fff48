import type { Finish, RateTable } from '../rate-table.ts'
import { unitSystem } from '../units.ts'
import { tripVolume } from './loads.ts'
import { purchaseTaxRate } from './offers.ts'
import { contentsOf, type Way, waysOf } from './pack.ts'
import { turningPoints } from './purchase.ts'

// A quotient of floats this little above a whole number is that number.
const HAIR = 1e-9
// Needs that span more are priced one by one.
const MOST_STEPS = 4096

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

/**
 * What buying a finish costs in every scenario, in money: needs in yd³|m³ to order, tripCosts in money for a trip. In
 * each the cheapest way, or the pinned one; nothing where its cost isn't known.
 */
export function buyingCosts(
  finish: Finish,
  table: RateTable,
  needs: Float64Array,
  tripCosts: Float64Array,
): Float64Array {
  const ways = waysOf(finish.packs)
  if (ways.length === 0) {
    const each = Number(finish.materialCost ?? 0) * (1 + Number(purchaseTaxRate(table)))
    return needs.map(need => need * each)
  }
  const pinned = ways.filter(({ key }) => key === finish.pinned)
  const costs = new Float64Array(needs.length).fill(Number.POSITIVE_INFINITY)
  for (const way of pinned.length > 0 ? pinned : ways) {
    const numbers = inNumbers(way, finish, table)
    const boughtAt = stepTable(numbers, needs)
    for (let draw = 0; draw < needs.length; draw++) {
      for (const { goods, trips } of boughtAt(stepsFor(needs[draw]!, numbers)))
        costs[draw] = Math.min(costs[draw]!, goods + trips * tripCosts[draw]!)
    }
  }
  return costs
}

// Every step within the needs is priced once.
function stepTable(way: WayInNumbers, needs: Float64Array): WayInNumbers['at'] {
  const [first, last] = [stepsFor(least(needs), way), stepsFor(most(needs), way)]
  if (last - first >= MOST_STEPS) return way.at
  const known: Bought[][] = []
  for (let steps = first; steps <= last; steps++) known.push(way.at(steps))
  return steps => known[steps - first]!
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
  const at = (steps: number): Bought[] => {
    if (steps === 0) return [{ goods: 0, trips: 0 }]
    const all = [steps, ...turns.filter(turn => turn > steps)].map(bought)
    return all.filter(one => !all.some(other => isBetter(other, one)))
  }
  return { contents, least: Math.ceil(Number(pack.least) / step - HAIR), at }
}

function isBetter(one: Bought, than: Bought): boolean {
  return one.goods < than.goods ? one.trips <= than.trips : one.goods === than.goods && one.trips < than.trips
}

function least(numbers: Float64Array): number {
  return numbers.reduce((a, b) => Math.min(a, b))
}

function most(numbers: Float64Array): number {
  return numbers.reduce((a, b) => Math.max(a, b))
}
