import type { Insertable } from 'kysely'
import type { QuoteLineTable } from '../db/schema.ts'
import type { Price } from '../estimate/firm-price.ts'
import { cents, Decimal, sumOf } from '../money.ts'

export interface LinesWanted {
  /** One for every line worked out, in order; null leaves all of them as worked out. */
  amounts: { amount: string; reason: string }[] | null
  /** Lines of the contractor's own; an amount may be below zero. */
  added: { description: string; amount: string; reason: string }[]
}

export type LineDrawn = Omit<Insertable<QuoteLineTable>, 'quote_id'>

/** The lines of a quote: those worked out with the contractor's amounts, then the contractor's own. */
export function drawLines(price: Price, wanted: LinesWanted): LineDrawn[] {
  const workedOut = price.lines.map((line, index): LineDrawn => {
    const amount = cents(wanted.amounts?.[index]?.amount ?? line.amount)
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
      reason: amount === cents(line.amount) ? null : wanted.amounts![index]!.reason,
    }
  })
  const added = wanted.added.map(
    (line, index): LineDrawn => ({
      position: price.lines.length + index + 1,
      kind: 'other',
      slug: null,
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

/** What lines come to, "1240.00". */
export function totalOf(lines: { amount: string }[]): string {
  return cents(sumOf(lines.map(line => new Decimal(line.amount))))
}
