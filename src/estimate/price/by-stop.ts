import { Decimal, sumOf, zero } from '../../lib/decimal.ts'
import type { Bed, Job } from '../job/bed.ts'
import { isFor } from '../job/extras.ts'
import { type BedQuantities, inPlaceInAll, jobQuantities } from '../job/quantities.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'

/** A line of a price as far as it is shared out: the slug of its finish or extra, and its amount in money. */
export interface SharedLine {
  kind: string
  slug: string | null
  amount: string
}

/**
 * What of each line falls onto each stop, in cents that add up to the line: by how much of its finish, or of what its extra
 * is counted by, the beds there take. Null is a line of the whole job: the rates of a larger job, setting up, travel, an
 * extra that is done once, what was added, a discount, the minimum, tax. `stopOf` is the stop of each bed of the job.
 */
export function sharesByStop(
  job: Job,
  stopOf: readonly number[],
  stops: number,
  lines: readonly SharedLine[],
  table: RateTable,
): (string[] | null)[] {
  const { beds } = jobQuantities(job, table)
  const weigh = (figure: (bed: Bed, quantities: BedQuantities) => Decimal): Decimal[] => {
    const parts: Decimal[][] = Array.from({ length: stops }, () => [])
    job.beds.forEach((bed, index) => {
      parts[stopOf[index] ?? 0]?.push(figure(bed, beds[index]!).times(bed.count))
    })
    return parts.map(sumOf)
  }
  return lines.map(line => {
    const figure = figureOf(line, job, table)
    return figure && shared(line.amount, weigh(figure))
  })
}

/** An amount in cents shared out by weights: each within a cent of its share, none below zero of a positive one; the sum is exact. Null where nothing weighs. */
export function shared(amount: string, weights: readonly Decimal[]): string[] | null {
  const whole = sumOf([...weights])
  if (!whole.gt(0)) return null
  const inCents = new Decimal(amount).times(100)
  const exact = weights.map(weight => inCents.abs().times(weight).div(whole))
  const least = exact.map(share => share.floor())
  const missing = inCents.abs().minus(sumOf(least))
  // The largest remainders get the cents that are left, the first of equal ones before the others.
  const byRest = exact
    .map((share, at) => ({ at, rest: share.minus(least[at]!) }))
    .sort((a, b) => b.rest.comparedTo(a.rest) || a.at - b.at)
  const more = new Set(byRest.filter((_share, nth) => missing.gt(nth)).map(({ at }) => at))
  return least.map((share, at) => {
    const part = share.plus(more.has(at) ? 1 : 0).div(100)
    return (inCents.lt(0) && !part.isZero() ? part.negated() : part).toFixed(2)
  })
}

type Figure = (bed: Bed, quantities: BedQuantities) => Decimal

function figureOf({ kind, slug }: SharedLine, job: Job, table: RateTable): Figure | null {
  if (kind === 'finish' || kind === 'laying') return (bed, quantities) => volumeOf(slug, bed, quantities)
  if (kind !== 'extra' && kind !== 'extra-labor') return null
  const extra = table.extras.find(one => one.slug === slug)
  const counted = extra && countedBy(extra)
  if (!extra || !counted) return null
  return (bed, quantities) => (isFor(extra, job, bed) ? counted(quantities) : zero)
}

// As what lies on top and as layers beneath.
function volumeOf(slug: string | null, bed: Bed, { inPlace, layers }: BedQuantities): Decimal {
  const beneath = layers.filter(({ finish }) => finish.slug === slug).map(layer => layer.inPlace)
  return sumOf(bed.finish.slug === slug ? [inPlace, ...beneath] : beneath)
}

function countedBy({ per }: Extra): ((quantities: BedQuantities) => Decimal) | null {
  switch (per) {
    case 'job':
      return null
    case 'bed':
      return () => new Decimal(1)
    case 'area':
      return ({ area }) => area
    case 'edge':
      return ({ edge }) => edge ?? zero
    case 'volume':
      return inPlaceInAll
    case 'lying':
      return ({ lying }) => lying
    default:
      return per satisfies never
  }
}
