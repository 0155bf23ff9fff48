import type { Amount } from '../db/schema/payments.ts'
import { withTax } from '../estimate/price/firm-price.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { NEAR } from '../estimate/tax/tax-on.ts'
import { cents, Decimal, zero } from '../lib/decimal.ts'
import { NEAR_WORDS, totalOf } from './compose-lines.ts'
import { taxLines } from './compose-quote.ts'
import { amountOf } from './conditions.ts'
import type { QuoteWithLines } from './queries.ts'

type Line = QuoteWithLines['lines'][number]

/** Whether a price has the discount for a day with work near. */
export function hasNear({ lines }: Pick<QuoteWithLines, 'lines'>): boolean {
  return lines.some(isNear)
}

/**
 * A price with the discount as a line of its own, a share of its lines before tax or money, and with the tax that
 * follows. It never goes below the minimum charge of its rate table; undefined where nothing is left to take off.
 */
export function withNear(
  quote: QuoteWithLines,
  discount: Amount,
  table: RateTable,
): QuoteWithLines | undefined {
  const before = quote.lines.filter(line => line.kind !== 'tax' && !isNear(line))
  const sum = new Decimal(totalOf(before))
  const most = Decimal.max(zero, sum.minus(table.minimumCharge))
  const off = Decimal.min(amountOf(discount, sum.toFixed(2)), most)
  if (off.lte(0)) return undefined
  const amount = cents(off.negated())
  const line = { kind: 'other' as const, slug: NEAR, description: NEAR_WORDS, reason: NEAR_WORDS, amount }
  const position = Math.max(0, ...before.map(one => one.position)) + 1
  const bare = { quantity: null, unit: null, rate: null, worked_out: null }
  return taxed(quote, [...before, { position, ...line, ...bare }], table)
}

/** The same price without it. */
export function withoutNear(quote: QuoteWithLines, table: RateTable): QuoteWithLines {
  const before = quote.lines.filter(line => line.kind !== 'tax' && !isNear(line))
  return taxed(quote, before, table)
}

function taxed(quote: QuoteWithLines, before: Line[], table: RateTable): QuoteWithLines {
  const { tax, total } = withTax(before, quote.job.postcode, quote.terms, table)
  const last = Math.max(0, ...before.map(({ position }) => position))
  const taxes = tax ? taxLines(tax, last, quote.terms, table) : []
  const lines = taxes.map((line): Line => {
    const { slug = null, rate = null, amount, position, kind, worked_out = null } = line
    const money = {
      rate: rate && String(rate),
      amount: cents(amount),
      worked_out: worked_out && String(worked_out),
    }
    return { position, kind, slug, description: null, quantity: null, unit: null, reason: null, ...money }
  })
  return { ...quote, tax, total, lines: [...before, ...lines] }
}

function isNear({ kind, slug }: Pick<Line, 'kind' | 'slug'>): boolean {
  return kind === 'other' && slug === NEAR
}
