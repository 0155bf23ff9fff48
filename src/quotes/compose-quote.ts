import type { Terms } from '../estimate/job/terms.ts'
import { withTax } from '../estimate/price/firm-price.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { type TaxLine, taxedByName } from '../estimate/tax/tax-name.ts'
import type { TaxAmount, TaxDue } from '../estimate/tax/tax-on.ts'
import { cents } from '../lib/decimal.ts'
import { type ComposedLine, composeLines, type LinesWanted, totalOf } from './compose-lines.ts'
import type { Priced } from './pricing.ts'

/** A quote's lines with the tax on them, where it comes on top; net is what they come to without any tax. */
export interface ComposedQuote {
  lines: ComposedLine[]
  tax: TaxDue | null
  net: string
  total: string
}

/** Composes a quote from what was worked out and what the contractor made of it. */
export function composeQuote({ price, terms, job, rates }: Priced, wanted: LinesWanted): ComposedQuote {
  const before = composeLines(price, wanted, terms.adjustment)
  const { tax, net } = withTax(before, job.postcode, terms, rates.body)
  const lines = tax ? [...before, ...taxLines(tax, before.length, terms, rates.body)] : before
  return { lines, tax, net, total: totalOf(lines) }
}

/** What comes on top, or is taken off whoever is exempt, after so many lines; a tax that is in the prices has no line. */
export function taxLines(tax: TaxDue, before: number, terms: Terms, table: RateTable): ComposedLine[] {
  const own: [TaxAmount, TaxLine | null][] = [[tax, taxedByName(terms, table)]]
  const all: typeof own = tax.second ? [...own, [tax.second, 'second']] : own
  return all
    .map(([due, slug]) => ({ due, slug, amount: tax.included ? cents(`-${due.off}`) : due.amount }))
    .filter(({ amount }) => Number(amount) !== 0)
    .map(({ due, slug, amount }, index) => ({
      position: before + index + 1,
      kind: 'tax' as const,
      slug,
      description: null,
      quantity: null,
      unit: null,
      rate: due.rate,
      worked_out: amount,
      amount,
      reason: null,
    }))
}
