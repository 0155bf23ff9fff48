import { Decimal, one } from '../../lib/decimal.ts'
import { plainTerms, type Terms } from '../job/terms.ts'
import type { RateTable } from '../table/rate-table.ts'
import { taxedAs } from '../tax/rates-at.ts'
import { type TaxableLine, taxesOf, taxOn } from '../tax/tax-on.ts'
import { totalOf } from './price-lines.ts'

/**
 * What homeowners are told of tax beside a range: its rate as a share, and whether the range has it in it. What follows
 * is left out where there is nothing to say: a second tax's rate, that it is the tax on new work, and that new work
 * would be taxed otherwise with a certificate.
 */
export interface TaxShown {
  rate: string
  inRange: boolean
  second?: string
  newWork?: true
  certificate?: true
}

/**
 * How a range shows tax, what it makes of a price that the table's figures come to, and the likely price with it. Where only some lines are
 * taxed, every scenario is taken to be taxed in the same share as the price of the sizes as told.
 */
export function shownTax(
  lines: TaxableLine[],
  postcode: string,
  table: RateTable,
  terms: Terms = plainTerms,
): { tax: TaxShown | null; factor: Decimal; likely: Decimal } {
  const sum = totalOf(lines)
  const due = taxOn(lines, postcode, terms, table)
  if (due === null || table.tax === null) return { tax: null, factor: one, likely: sum }
  const { amount } = taxesOf(due)
  // Where nothing is charged there is nothing to leave out.
  if (amount.isZero()) return { tax: { rate: '0', inRange: true }, factor: one, likely: sum }
  const inRange = due.included || table.tax.inRanges
  const comesOn = inRange && !due.included && sum.gt(0)
  const rates = new Decimal(due.rate).plus(due.second?.rate ?? 0)
  const factor = comesOn ? one.plus(new Decimal(due.taxed).div(sum).times(rates)) : one
  const asNew = taxedAs(terms, table.tax) === 'new'
  const tax: TaxShown = {
    rate: due.rate,
    inRange,
    ...(due.second && Number(due.second.rate) > 0 ? { second: due.second.rate } : {}),
    ...(asNew ? { newWork: true } : {}),
    ...(terms.work === 'new' && !asNew ? { certificate: true } : {}),
  }
  return { tax, factor, likely: comesOn ? sum.plus(amount) : sum }
}
