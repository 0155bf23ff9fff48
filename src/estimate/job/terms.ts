import { Decimal, roundToCent, zero } from '../../lib/decimal.ts'
import type { CrewTold } from '../table/crew.ts'

/** What the staff settle for one job. work is what tax calls it; exempt a certificate's number, '' for none. */
export interface Terms {
  work: 'upkeep' | 'new'
  exempt: string
  /** Below zero a discount, above it a surcharge: a share of the lines, or money. */
  adjustment: { by: 'share' | 'money'; value: string; reason: string } | null
  /** Left out where the usual crew comes. */
  crew?: CrewTold
}

export const plainTerms: Terms = { work: 'upkeep', exempt: '', adjustment: null }

/** What a discount (below zero) or a surcharge comes to on lines of so much; it never takes off more than they are. */
export function adjustmentOf(lines: Decimal, { adjustment }: Pick<Terms, 'adjustment'>): Decimal {
  if (adjustment === null) return zero
  const wanted = adjustment.by === 'share' ? lines.times(adjustment.value) : new Decimal(adjustment.value)
  return Decimal.max(roundToCent(wanted), Decimal.min(zero, lines.negated()))
}
