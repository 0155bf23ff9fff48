import type { Job } from '../job/bed.ts'
import { extrasOf, isFor } from '../job/extras.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { priceFactor } from '../price/cost-plus.ts'
import type { Extra, RateTable, Span } from '../table/rate-table.ts'
import type { Points } from './points.ts'
import { addAtRate, atRates, type Rate, rateOf } from './rates.ts'
import type { ScenarioFinish, ScenarioGroup } from './scenario-beds.ts'
import { edgeLengths, finishAreas, lyingVolumes } from './scenario-volumes.ts'

export interface Group {
  per: 'area' | 'edge' | 'volume' | 'lying'
  /** The entries that it is for; null for all of them. */
  beds: Set<number> | null
  rate: Rate
  /** What is known already of how much of it the beds of a finish come to. */
  known: Map<ScenarioFinish, Float64Array>
}

/** The extras of a job as numbers: the prices of what doesn't change with the beds, and what follows these. */
export interface ScenarioExtras {
  fixed: Float64Array
  groups: Group[]
}

/** `spanOf` is what of an extra is added up for as much of it as there is: its rate, or its labor hours. */
export function scenarioExtras(
  job: Job,
  table: RateTable,
  points: Points,
  spanOf: (extra: Extra) => Span = priceSpan(table),
): ScenarioExtras {
  const fixed: Rate = { lower: 0, gap: 0 }
  const groups = new Map<string, Group>()
  for (const extra of extrasOf(job, table)) {
    if (extra.per === 'job' || extra.per === 'bed') {
      add(fixed, rateOf(spanOf(extra), extra.per === 'job' ? 1 : bedCount(extra, job)))
      continue
    }
    const beds = bedsOf(extra, job)
    const key = `${extra.per} ${beds ? [...beds].join(' ') : 'all'}`
    const group = groups.get(key) ?? { per: extra.per, beds, rate: { lower: 0, gap: 0 }, known: new Map() }
    add(group.rate, rateOf(spanOf(extra), extra.per === 'lying' ? Number(extra.fluffing) : 1))
    groups.set(key, group)
  }
  return {
    fixed: atRates(fixed, points.rate),
    groups: [...groups.values()].filter(({ rate }) => rate.lower + rate.gap > 0),
  }
}

export function bedsOf(extra: Extra, job: Job): Set<number> | null {
  const beds = job.beds.flatMap((bed, index) => (isFor(extra, job, bed) ? [index] : []))
  return beds.length === job.beds.length ? null : new Set(beds)
}

function bedCount(extra: Extra, job: Job): number {
  return job.beds.reduce((sum, bed) => sum + (isFor(extra, job, bed) ? bed.count : 0), 0)
}

function add(rate: Rate, more: Rate): void {
  rate.lower += more.lower
  rate.gap += more.gap
}

// Of what is priced by its cost the labor: what is bought for it is in whole packs.
function priceSpan(table: RateTable): (extra: Extra) => Span {
  return extra => {
    if (extra.pricedBy === 'rate') return extra
    const hour = (laborHourCost(table)?.toNumber() ?? 0) * priceFactor(table).toNumber()
    const { lower, upper } = extra.laborHours
    return { lower: String(Number(lower) * hour), upper: String(Number(upper) * hour) }
  }
}

/** What the extras come to in every scenario, in an array that may be written to. */
export function extraPrices(
  { fixed, groups }: ScenarioExtras,
  finishes: ScenarioFinish[],
  points: Points,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
): Float64Array {
  const prices = fixed.slice()
  for (const group of groups) {
    for (const amounts of amountsOf(group, finishes, points, volumesOf))
      addAtRate(prices, amounts, group.rate, points.rate)
  }
  return prices
}

export function amountsOf(
  { per, beds, known }: Group,
  finishes: ScenarioFinish[],
  points: Points,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
): Float64Array[] {
  if (per === 'edge') return [edgeLengths(finishes, points, beds)]
  return finishes.map(finish => {
    const amounts =
      known.get(finish) ?? amountOf(per, beds ? onlyBeds(finish, beds) : finish, points, volumesOf)
    known.set(finish, amounts)
    return amounts
  })
}

function amountOf(
  per: Exclude<Group['per'], 'edge'>,
  finish: ScenarioFinish,
  points: Points,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
): Float64Array {
  switch (per) {
    case 'area':
      return finishAreas(finish, points)
    case 'volume':
      return volumesOf(finish)
    case 'lying':
      return lyingVolumes(finish, points)
    default:
      return per satisfies never
  }
}

function onlyBeds(finish: ScenarioFinish, wanted: Set<number>): ScenarioFinish {
  const only = <Group extends ScenarioGroup>(group: Group): Group => ({
    ...group,
    beds: group.beds.filter(bed => wanted.has(bed.index)),
  })
  return { ...only(finish), beneath: finish.beneath.map(only) }
}
