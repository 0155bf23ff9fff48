import { Decimal, zero } from '../../lib/decimal.ts'
import { type Factors, factor, sumOfProducts, workedOut } from './factors.ts'

/** What the staff settle for one job. work is what tax calls it; exempt a certificate's number, '' for none. */
export interface Terms {
  work: 'upkeep' | 'new'
  exempt: string
  /** Below zero a discount, above it a surcharge: a share of the lines, or money. */
  adjustment: { by: 'share' | 'money'; value: string; reason: string } | null
}

export const plainTerms: Terms = { work: 'upkeep', exempt: '', adjustment: null }

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
