import type { Kysely } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Conditions } from '../db/schema/payments.ts'
import type { Database } from '../db/schema.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import { figureInWords, moneyInWords } from '../language/money-in-words.ts'
import { requireRateTable } from '../rates/queries.ts'
import { pickedInWords } from './choice-words.ts'
import { lineName, lineQuantity, taxNote, withRate } from './line-name.ts'
import { findNewestQuote } from './queries.ts'
import { findSharesOf, type PriceByStop, sortByStop } from './stop-shares.ts'

export interface LineView {
  what: string
  quantity: string | null
  amount: string
  /** 'worked out as $100.00: a steep slope', where the contractor changed or added it. */
  changed: string | null
}

export interface QuoteView {
  id: number
  revision: number
  total: string
  taxNote: string | null
  lines: LineView[]
  /** The lines by stop; null of a job without any. */
  byStop: PriceByStop | null
  note: string
  /** Why the price is what it is, as its homeowner reads it. */
  why: string
  laborHours: string
  labor_hours: string
  holdsUntil: string
  made: string
  madeBy: string
  accepted_at: string | null
  accepted: string | null
  /** What was picked; none where there were no choices, or nothing is accepted yet. */
  picked: string[]
  /** Whether its homeowner may choose. */
  hasChoices: boolean
  conditions: Conditions | null
}

/** The newest quote of a request as the staff see it, with its rates or without; null while there is none. */
export async function viewQuote(
  db: Kysely<Database>,
  quoteRequestId: number,
  business: Business,
  withRates: boolean,
): Promise<QuoteView | null> {
  const quote = await findNewestQuote(db, quoteRequestId)
  if (!quote) return null
  const { body: table } = await requireRateTable(db, quote.rate_table_id)
  const money = (amount: string) => moneyInWords(amount, quote.currency, 'en')
  const moment = (at: string) => momentInWords(at, business.time_zone, 'en')
  const named = quote.lines.map(line => ({
    position: line.position,
    label: lineName(line, table, 'en'),
    amount: money(line.amount),
  }))
  const shares = await findSharesOf(db, quote, table)
  return {
    id: quote.id,
    revision: quote.revision,
    total: money(quote.total),
    taxNote: taxNote(quote, table, 'en'),
    lines: quote.lines.map(line => ({
      what: lineName(line, table, 'en'),
      quantity: lineQuantity(withRate(line, withRates), table, 'en'),
      amount: money(line.amount),
      changed:
        line.reason &&
        [line.worked_out && `${money(line.worked_out)} before your change`, line.reason]
          .filter(Boolean)
          .join(': '),
    })),
    byStop: sortByStop(quote.job, named, shares, quote.currency, 'en'),
    note: quote.note,
    why: quote.why?.[quote.language] ?? '',
    laborHours: figureInWords(quote.labor_hours, 'en'),
    labor_hours: quote.labor_hours,
    holdsUntil: dayInWords(quote.holds_until, 'en', true),
    made: moment(quote.made_at),
    madeBy: quote.made_by_name,
    accepted_at: quote.accepted_at,
    picked: pickedInWords(quote, table, 'en'),
    hasChoices: quote.choices !== null,
    conditions: quote.conditions,
    accepted: quote.accepted_at ? `by ${quote.typed_name}, ${moment(quote.accepted_at)}` : null,
  }
}
