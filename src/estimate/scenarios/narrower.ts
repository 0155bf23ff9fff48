import type { Decimal } from '../../lib/decimal.ts'
import type { Bed, Job } from '../job/bed.ts'
import { isLaidWhole } from '../job/layers.ts'
import type { Method } from '../job/methods/method.ts'
import type { RateTable } from '../table/rate-table.ts'
import { type Spread, type SpreadOf, shownRange } from './range.ts'
import type { Change } from './scenario-beds.ts'

/** What would narrow the range most: the bed's index, and the range it would leave; for a visit all null. */
export interface Narrower {
  what: 'sizes' | 'lying' | 'visit'
  bed: number | null
  low: string | null
  high: string | null
}

interface Candidate extends Change {
  what: 'sizes' | 'lying'
}

/**
 * Tries each bed's sizes by tape and each bed's layer measured, and names the one that leaves the narrowest range;
 * when none cuts it by a tenth, a visit settles it. Null when nothing could be measured better, or no price varies.
 */
export function whatWouldNarrow(
  job: Job,
  told: Spread,
  spreadOf: SpreadOf,
  { likely, factor }: { likely: Decimal; factor: Decimal },
  table: RateTable,
  method: Method,
): Narrower | null {
  const candidates = job.beds.flatMap((bed, index) => candidatesOf(bed, index, table, method))
  const width = ({ low, high }: Spread) => {
    const cents = likely.toNumber() * 100
    return Math.max(high, cents) - Math.min(low, cents)
  }
  if (candidates.length === 0 || width(told) === 0) return null
  const { what, change } = narrowest(candidates, spreadOf, width)
  const spread = spreadOf(change)
  if (width(spread) > 0.9 * width(told)) return { what: 'visit', bed: null, low: null, high: null }
  return { what, bed: change.bed, ...shownRange(spread, likely, table, factor, method) }
}

/**
 * The candidate that leaves the least width, the first of those that leave the same. Each is tried on some scenarios first:
 * none leaves less than it does by these.
 */
function narrowest(candidates: Candidate[], spreadOf: SpreadOf, width: (spread: Spread) => number) {
  const tried = firstAlike(candidates, spreadOf).map(({ what, ...change }, place) => ({
    what,
    change,
    place,
    least: width(spreadOf.within(change)),
  }))
  const promising = tried.toSorted((a, b) => a.least - b.least)
  let [best, about] = [promising[0]!, Number.POSITIVE_INFINITY]
  for (const one of promising) {
    if (one.least > about) break
    const left = width(spreadOf.about(one.change))
    if (left < about || (left === about && one.place < best.place)) [best, about] = [one, left]
  }
  return best
}

// The first of those that leave the same.
function firstAlike(candidates: Candidate[], { alike }: SpreadOf): Candidate[] {
  const found: Candidate[] = []
  for (const one of candidates) if (!found.some(first => alike(first, one))) found.push(one)
  return found
}

function candidatesOf(bed: Bed, index: number, table: RateTable, method: Method): Candidate[] {
  if (bed.sizes.volume) return []
  const now = method.errors(bed, table)
  const errors = method.errors(bed, table, 'tape')
  const lyingError = Number(table.lyingMeasured)
  return [
    ...(now.shared > errors.shared || now.own > errors.own
      ? [{ what: 'sizes', bed: index, errors } as const]
      : []),
    ...(!isLaidWhole(bed) && bed.lying.s.gt(lyingError)
      ? [{ what: 'lying', bed: index, lyingError } as const]
      : []),
  ]
}
