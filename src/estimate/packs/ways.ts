import { contentsOf, type Way, waysOf } from '../table/pack.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { MoneyOf } from './money.ts'
import { turningPoints } from './purchase.ts'
import { HAIR } from './trips.ts'

/** A way to buy as numbers, by steps: contents is what one gives in yd³|m³, slack how much short of its contents is not short. */
export interface WayInNumbers {
  way: Way
  contents: number
  slack: number
  /** The fewest steps that are sold. */
  least: number
  /** From how many steps on something gets cheaper. */
  turns: number[]
  loose: boolean
  costOf(steps: number): number
  /** What a step costs at least where so many are bought at most. */
  cheapest(most: number): number
  /** What the delivery of so many comes to. */
  fee(steps: number): number
}

/** Every way to buy a finish, or the pinned one alone, in the order of the list. */
export function waysInNumbers(finish: Finish, table: RateTable, moneyOf: MoneyOf): WayInNumbers[] {
  const all = waysOf(finish.packs)
  const pinned = all.filter(({ key }) => key === finish.pinned)
  return (pinned.length > 0 ? pinned : all).map(way => inNumbers(way, table, moneyOf))
}

function inNumbers(way: Way, table: RateTable, moneyOf: MoneyOf): WayInNumbers {
  const { pack, delivered } = way
  const step = Number(pack.step)
  const contents = contentsOf(pack, unitSystem(table.units)).toNumber() * step
  const stepsAt = (units: string) => Math.ceil(Number(units) / step - HAIR)
  const prices = pack.prices.map(({ from, each }) => ({ from: stepsAt(from), each: Number(each) }))
  const delivery = delivered ? Number(pack.delivered?.fee ?? 0) : 0
  const free = delivered && pack.delivered?.freeFrom ? stepsAt(pack.delivered.freeFrom) : null
  const fee = (steps: number) => (free !== null && steps >= free ? 0 : delivery)
  const eachAt = (steps: number) => {
    let at = prices.length - 1
    while (at > 0 && steps < prices[at]!.from) at--
    return prices[at]!.each
  }
  return {
    way,
    contents,
    slack: contents * HAIR,
    least: stepsAt(pack.least),
    turns: turningPoints(way).map(stepsAt),
    loose: pack.kind === 'bulk' || pack.kind === 'weighed',
    costOf: steps => moneyOf(steps * step * eachAt(steps), fee(steps)),
    cheapest: most => {
      let least = prices[0]!.each
      for (const { from, each } of prices) if (from <= most && each < least) least = each
      return step * least
    },
    fee,
  }
}
