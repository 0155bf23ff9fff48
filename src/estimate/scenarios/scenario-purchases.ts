import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf, isFor } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { goodsForExtra } from '../packs/extra-shopping.ts'
import { moneyIn } from '../packs/money.ts'
import { neededIn } from '../packs/offers.ts'
import { turningPoints } from '../packs/purchase.ts'
import { groundsOf } from '../packs/strips.ts'
import { priceFactor } from '../price/cost-plus.ts'
import { contentsOf, type ExtraPack, type Way, waysOf } from '../table/pack.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Points } from './points.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { amountsOf, bedsOf, type Group } from './scenario-extras.ts'

/** Adds to prices what is bought for the extras that are priced by their cost, with the margin on it, in money. */
export type AddPurchases = (
  prices: Float64Array,
  finishes: ScenarioFinish[],
  points: Points,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
) => void

/** What so much of an extra costs to buy, in money. */
type CostOf = (amount: number) => number

/** Null where nothing is bought so. Strips of a roll are taken to grow with the area. */
export function extraPurchases(job: Job, quantities: JobQuantities, table: RateTable): AddPurchases | null {
  const byCost = extrasOf(job, table).filter(({ pricedBy }) => pricedBy === 'cost')
  const factor = priceFactor(table).toNumber()
  let fixed = 0
  const followed: { group: Group; costOf: CostOf }[] = []
  for (const extra of byCost) {
    const goods = goodsForExtra(extra, job, quantities, table).toNumber()
    const { per } = extra
    if (goods === 0) continue
    if (per === 'job' || per === 'bed') fixed += goods
    else {
      const group: Group = { per, beds: bedsOf(extra, job), rate: { lower: 0, gap: 0 }, known: new Map() }
      followed.push({ group, costOf: costOfExtra(extra, job, quantities, table) })
    }
  }
  if (fixed === 0 && followed.length === 0) return null
  return (prices, finishes, points, volumesOf) => {
    for (let point = 0; point < points.count; point++) prices[point]! += fixed * factor
    for (const { group, costOf } of followed) {
      const [first, ...others] = amountsOf(group, finishes, points, volumesOf)
      for (let point = 0; point < points.count; point++) {
        let amount = first?.[point] ?? 0
        for (const more of others) amount += more[point]!
        prices[point]! += costOf(amount) * factor
      }
    }
  }
}

function costOfExtra(extra: Extra, job: Job, quantities: JobQuantities, table: RateTable): CostOf {
  const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
  const told = units.div(unitsPer).div(extra.per === 'lying' ? extra.fluffing : 1)
  const money = moneyIn(table)
  if (extra.packs.length === 0) {
    const each =
      Number(extra.materialCost ?? 0) *
      (1 + Number(extra.waste)) *
      Number(extra.per === 'lying' ? extra.fluffing : 1)
    return amount => money(amount * each, 0)
  }
  const beds = extra.per === 'area' ? job.beds.filter(bed => isFor(extra, job, bed)) : []
  const grounds = beds.flatMap(bed => groundsOf(bed, table))
  const ways = waysOf<ExtraPack>(extra.packs)
  const asked = ways.filter(({ key }) => key === extra.pinned)
  const costs = (asked.length > 0 ? asked : ways).map(way => {
    const each = neededIn(way.pack, units, extra, grounds).div(told).toNumber()
    const costOf = costOfWay(way, table)
    return (amount: number) => costOf(amount * each)
  })
  return amount => costs.reduce((least, costOf) => Math.min(least, costOf(amount)), Number.POSITIVE_INFINITY)
}

// A quotient this little above a whole number of packs is that number.
const HAIR = 1e-9

function costOfWay(way: Way<ExtraPack>, table: RateTable): CostOf {
  const { pack, delivered } = way
  const money = moneyIn(table)
  const contents = contentsOf(pack, unitSystem(table.units)).toNumber()
  const [least, step] = [Number(pack.least), Number(pack.step)]
  const prices = pack.prices.map(({ from, each }) => ({ from: Number(from), each: Number(each) }))
  const stakes = pack.kind === 'piece' ? Number(pack.stakes) * Number(pack.stakeEach) : 0
  const fee = delivered && pack.delivered ? Number(pack.delivered.fee) : 0
  const freeFrom = Number((delivered && pack.delivered?.freeFrom) || Number.POSITIVE_INFINITY)
  const inSteps = (units: number) => Math.ceil(units / step - HAIR) * step
  const turns = turningPoints(way).map(from => inSteps(Number(from)))
  const priceOf = (units: number) => {
    const { each } = prices.findLast(({ from }) => units >= from)!
    return money(units * (each + stakes), units >= freeFrom ? 0 : fee)
  }
  return need => {
    if (need <= 0) return 0
    const fewest = inSteps(Math.max(need / contents, least))
    return turns.reduce(
      (cheapest, units) => (units > fewest ? Math.min(cheapest, priceOf(units)) : cheapest),
      priceOf(fewest),
    )
  }
}
