import { withTax } from '../estimate/firm-price.ts'
import type { TaxDue } from '../estimate/tax/tax-on.ts'
import type { Priced } from './pricing.ts'
import { drawLines, type LineDrawn, type LinesWanted, totalOf } from './quote-lines.ts'

/** A quote's lines with the tax on them, where it comes on top; net is what they come to without any tax. */
export interface QuoteDrawn {
  lines: LineDrawn[]
  tax: TaxDue | null
  net: string
  total: string
}

/** Draws a quote from what was worked out and what the contractor made of it. */
export function drawQuote({ price, terms, told, rates }: Priced, wanted: LinesWanted): QuoteDrawn {
  const before = drawLines(price, wanted, terms.adjustment)
  const { tax, net } = withTax(before, told.postcode, terms, rates.body)
  const lines = tax && !tax.included && Number(tax.amount) !== 0 ? [...before, taxLine(tax, before)] : before
  return { lines, tax, net, total: totalOf(lines) }
}

function taxLine(tax: TaxDue, before: LineDrawn[]): LineDrawn {
  return {
    position: before.length + 1,
    kind: 'tax',
    slug: null,
    description: null,
    quantity: null,
    unit: null,
    rate: tax.rate,
    worked_out: tax.amount,
    amount: tax.amount,
    reason: null,
  }
}
