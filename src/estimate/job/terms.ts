import { Decimal, zero } from '../../lib/decimal.ts'
import type { CrewTold } from '../table/crew.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Job } from './bed.ts'
import { isFor } from './extras.ts'
import { type Factors, factor, sumOfProducts, workedOut } from './factors.ts'

/** What the staff settle for one job. work is what tax calls it; exempt a certificate's number, '' for none. */
export interface Terms {
  work: 'upkeep' | 'new'
  exempt: string
  /** Below zero a discount, above it a surcharge: a share of the lines, or money. */
  adjustment: { by: 'share' | 'money'; value: string; reason: string } | null
  /** Left out where the usual crew comes. */
  crew?: CrewTold
  /** The certificate that new work is taxed as such by: its number, or where it is kept; left out where there is none. */
  certificate?: string
  /** Rates typed for this job alone, as shares, and why; null leaves one as it is. Left out where none was typed. */
  rates?: { rate: string | null; second: string | null; reason: string }
}

export const plainTerms: Terms = { work: 'upkeep', exempt: '', adjustment: null }

/**
 * What the terms are while nobody settled any: plain, and of new work where the owner has homeowners asked and every bed
 * was told to be new. A bed whose old material is taken out isn't.
 */
export function termsTold(job: Job, { tax, extras }: Pick<RateTable, 'tax' | 'extras'>): Terms {
  if (!tax?.newWork.asked || job.beds.length === 0) return plainTerms
  const cleared = extras.filter(extra => extra.per === 'lying')
  const isNew = (bed: Job['beds'][number]) =>
    bed.work === 'new' && !cleared.some(extra => isFor(extra, job, bed))
  return job.beds.every(isNew) ? { ...plainTerms, work: 'new' } : plainTerms
}

/**
 * How a discount (below zero) or a surcharge on lines of so much comes about; null where there is none. It never takes
 * off more than they are.
 */
export function adjustmentOf(lines: Decimal, { adjustment }: Pick<Terms, 'adjustment'>): Factors | null {
  if (adjustment === null) return null
  const wanted = sumOfProducts(
    adjustment.by === 'share'
      ? [factor(lines, 'money'), factor(adjustment.value, 'share')]
      : [factor(adjustment.value, 'money')],
  )
  const most = Decimal.min(zero, lines.negated())
  const factors = workedOut(wanted).lt(most) ? sumOfProducts([factor(most, 'money')]) : wanted
  return workedOut(factors).isZero() ? null : factors
}
