import { withTax } from '../estimate/price/firm-price.ts'
import type { TaxDue } from '../estimate/tax/tax-on.ts'
import { cents, Decimal } from '../lib/decimal.ts'
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
  const lines = tax ? [...before, ...taxLine(tax, before)] : before
  return { lines, tax, net, total: totalOf(lines) }
}

// What comes on top, or is taken off whoever is exempt; a tax that is in the prices has no line.
function taxLine(tax: TaxDue, before: ComposedLine[]): ComposedLine[] {
  const amount = tax.included ? cents(new Decimal(tax.off).negated()) : tax.amount
  if (Number(amount) === 0) return []
  return [
    {
      position: before.length + 1,
      kind: 'tax',
      slug: null,
      description: null,
      quantity: null,
      unit: null,
      rate: tax.rate,
      worked_out: amount,
      amount,
      reason: null,
    },
  ]
}
