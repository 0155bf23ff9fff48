import type { Job } from '../job/bed.ts'
import { extrasOf, isFor } from '../job/extras.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { type Points, SCENARIOS } from './points.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import { edgeLengths, finishAreas, lyingVolumes } from './scenario-volumes.ts'

/** A rate at the lower end, and how much higher it is at the upper. */
export interface Rate {
  lower: number
  gap: number
}

interface Group {
  per: 'area' | 'edge' | 'volume' | 'lying'
  /** The entries that it is for; null for all of them. */
  beds: Set<number> | null
  rate: Rate
}

/** The extras of a job as numbers: what is the same in every scenario, and what follows the beds. */
export interface ScenarioExtras {
  fixed: Rate
  groups: Group[]
}

export function rateOf({ lower, upper }: { lower: string; upper: string }, times = 1): Rate {
  return { lower: Number(lower) * times, gap: (Number(upper) - Number(lower)) * times }
}

export function scenarioExtras(job: Job, table: RateTable): ScenarioExtras {
  const fixed: Rate = { lower: 0, gap: 0 }
  const groups = new Map<string, Group>()
  for (const extra of extrasOf(job, table)) {
    if (extra.per === 'job' || extra.per === 'bed') {
      add(fixed, rateOf(extra, extra.per === 'job' ? 1 : bedCount(extra, job)))
      continue
    }
    const beds = bedsOf(extra, job)
    const key = `${extra.per} ${beds ? [...beds].join(' ') : 'all'}`
    const group = groups.get(key) ?? { per: extra.per, beds, rate: { lower: 0, gap: 0 } }
    add(group.rate, rateOf(extra, extra.per === 'lying' ? Number(extra.fluffing) : 1))
    groups.set(key, group)
  }
  return { fixed, groups: [...groups.values()].filter(({ rate }) => rate.lower + rate.gap > 0) }
}

function bedsOf(extra: Extra, job: Job): Set<number> | null {
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

/** What the extras come to in every scenario. */
export function extraPrices(
  { fixed, groups }: ScenarioExtras,
  finishes: ScenarioFinish[],
  points: Points,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
): Float64Array {
  const prices = points.rate.map(stand => fixed.lower + fixed.gap * stand)
  for (const { per, beds, rate } of groups) {
    const some = beds ? onlyBeds(finishes, beds) : finishes
    for (const amounts of amountsOf(per, some, points, volumesOf)) {
      for (let point = 0; point < SCENARIOS; point++)
        prices[point]! += amounts[point]! * (rate.lower + rate.gap * points.rate[point]!)
    }
  }
  return prices
}

function amountsOf(
  per: Group['per'],
  finishes: ScenarioFinish[],
  points: Points,
  volumesOf: (finish: ScenarioFinish) => Float64Array,
): Float64Array[] {
  switch (per) {
    case 'area':
      return finishes.map(finish => finishAreas(finish, points))
    case 'edge':
      return [edgeLengths(finishes, points)]
    case 'volume':
      return finishes.map(volumesOf)
    case 'lying':
      return finishes.map(finish => lyingVolumes(finish, points))
    default:
      return per satisfies never
  }
}

function onlyBeds(finishes: ScenarioFinish[], wanted: Set<number>): ScenarioFinish[] {
  return finishes.map(finish => ({ ...finish, beds: finish.beds.filter(bed => wanted.has(bed.index)) }))
}
