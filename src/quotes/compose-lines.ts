import type { Insertable } from 'kysely'
import type { QuoteLineTable } from '../db/schema/quotes.ts'
import { workedOut } from '../estimate/job/factors.ts'
import { adjustmentOf, type Terms } from '../estimate/job/terms.ts'
import type { PriceLine } from '../estimate/price/price-lines.ts'
import { NEAR } from '../estimate/tax/tax-on.ts'
import { cents, Decimal, sumOf, zero } from '../lib/decimal.ts'

export interface LinesWanted {
  /** One for every line worked out, in order, but a discount or surcharge; null leaves all as worked out. */
  amounts: { amount: string; reason: string }[] | null
  /** Lines of the contractor's own; an amount may be below zero. */
  added: { description: string; amount: string; reason: string }[]
}

/** The reason of the line that brings a total to a round figure. */
export const ROUNDED = 'Rounded the total'

/** The words of the discount for a day with work near, and its reason. */
export const NEAR_WORDS = 'Near another job that day'

export type ComposedLine = Omit<Insertable<QuoteLineTable>, 'quote_id'>

/** Whether the contractor may put another amount in a line that was worked out: a discount follows its terms. */
export function isAdjustable({ kind }: { kind: string }): boolean {
  return kind !== 'adjustment' && kind !== 'tax' && kind !== 'other'
}

/**
 * The lines of a quote before tax: those worked out with the contractor's amounts, a discount or surcharge on these, then
 * the contractor's own.
 */
export function composeLines(
  price: { lines: PriceLine[] },
  wanted: LinesWanted,
  adjustment: Terms['adjustment'] = null,
): ComposedLine[] {
  const adjustable = price.lines.filter(isAdjustable)
  const ownOf = (line: PriceLine) => wanted.amounts?.[adjustable.indexOf(line)]
  const withOwn = (line: PriceLine) => ({ amount: cents(ownOf(line)?.amount ?? line.amount) })
  const workedOut = price.lines.map((line, index): ComposedLine => {
    if (line.kind === 'adjustment')
      return adjustmentLine(line, index, price.lines.slice(0, index).map(withOwn), adjustment)
    const own = ownOf(line)
    const amount = withOwn(line).amount
    return {
      position: index + 1,
      kind: line.kind,
      slug: line.slug,
      description: null,
      quantity: line.quantity?.value ?? null,
      unit: line.quantity?.unit ?? null,
      rate: line.rate,
      worked_out: line.amount,
      amount,
      reason: own && amount !== cents(line.amount) ? own.reason : null,
    }
  })
  const added = wanted.added.map(
    (line, index): ComposedLine => ({
      position: price.lines.length + index + 1,
      kind: 'other',
      slug: line.description === NEAR_WORDS && Number(line.amount) < 0 ? NEAR : null,
      description: line.description,
      quantity: null,
      unit: null,
      rate: null,
      worked_out: null,
      amount: cents(line.amount),
      reason: line.reason,
    }),
  )
  return [...workedOut, ...added]
}

// A share of what the contractor asks, so it has no other amount worked out beside it.
function adjustmentLine(
  line: PriceLine,
  index: number,
  before: { amount: string }[],
  adjustment: Terms['adjustment'],
): ComposedLine {
  const factors = adjustmentOf(new Decimal(totalOf(before)), { adjustment })
  const amount = adjustment ? cents(factors ? workedOut(factors) : zero) : cents(line.amount)
  return {
    position: index + 1,
    kind: line.kind,
    slug: null,
    description: adjustment?.reason ?? null,
    quantity: null,
    unit: null,
    rate: null,
    worked_out: amount,
    amount,
    reason: null,
  }
}

/** What lines come to, "1240.00". */
export function totalOf(lines: { amount: string }[]): string {
  return cents(sumOf(lines.map(line => new Decimal(line.amount))))
}
