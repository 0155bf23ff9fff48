import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Told } from '../estimate/job/bed.ts'
import { sharesByStop } from '../estimate/price/by-stop.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { jobStored } from '../estimate/understood/stored.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'
import type { ComposedLine } from './compose-lines.ts'
import { lineName } from './line-name.ts'
import type { Priced } from './pricing.ts'
import type { QuoteWithLines } from './queries.ts'

/** What falls onto a stop of the line at a position; what of a quote has no share is of the whole job. */
export interface LineShare {
  position: number
  stop: number
  amount: string
}

/** A line as a page shows it, with its place among those of the quote. */
interface ShownLine {
  position: number
  label: string
  amount: string
}

/** A price sorted by the stops of its job: what each comes to by its lines, and what is of the whole job. */
export interface PriceByStop {
  stops: { name: string; spot: string; note: string; subtotal: string; lines: ShownLine[] }[]
  whole: ShownLine[]
}

/** What of a quote's lines falls onto each stop, nothing left out; of a job without stops none. */
export function sharesOf(
  { job, told, rates }: Pick<Priced, 'job' | 'told'> & { rates: { body: RateTable } },
  lines: readonly ComposedLine[],
): LineShare[] {
  const { stops = [] } = told
  if (stops.length === 0) return []
  const stopOf = told.beds.map(({ stop = 0 }) => stop)
  const asked = lines.map(({ kind, slug = null, amount }) => ({ kind, slug, amount: cents(amount) }))
  return sharesByStop(job, stopOf, stops.length, asked, rates.body).flatMap((shares, index) =>
    (shares ?? []).flatMap((amount, stop) =>
      Number(amount) === 0 ? [] : [{ position: lines[index]!.position, stop, amount }],
    ),
  )
}

export async function insertShares(
  trx: Transaction<Database>,
  quoteId: number,
  shares: readonly LineShare[],
): Promise<void> {
  if (shares.length === 0) return
  await trx
    .insertInto('quote_line_share')
    .values(shares.map(share => ({ ...share, quote_id: quoteId })))
    .execute()
}

/** The same of a quote with a combination of its choices, whose shares are kept once it is accepted. */
export function sharesOfQuote(quote: QuoteWithLines, body: RateTable): LineShare[] {
  if (!quote.job.stops) return []
  const stored = jobStored({ told: quote.job, understood: quote.understood }, body)
  return stored.ok ? sharesOf({ job: stored.job, told: quote.job, rates: { body } }, quote.lines) : []
}

/** What falls onto each stop as it was kept with a quote; of one whose choices wait for an answer as it follows from them. */
export async function findSharesOf(
  db: Kysely<Database>,
  quote: QuoteWithLines,
  table: RateTable,
): Promise<LineShare[]> {
  if (!quote.job.stops) return []
  return quote.choices && !quote.accepted_at ? sharesOfQuote(quote, table) : findShares(db, quote.id)
}

export async function findShares(db: Kysely<Database>, quoteId: number): Promise<LineShare[]> {
  return db
    .selectFrom('quote_line_share')
    .select(['position', 'stop', 'amount'])
    .where('quote_id', '=', quoteId)
    .orderBy('stop')
    .orderBy('position')
    .execute()
}

/** The same of a price that isn't a quote yet, as the staff see it. */
export function priceByStop(priced: Priced, lines: readonly ComposedLine[]): PriceByStop | null {
  const { body: table } = priced.rates
  const named = lines.map(({ position, kind, slug, description = null, rate = null, amount }) => {
    const line = {
      kind,
      slug: slug ?? null,
      description,
      rate: rate === null ? null : String(rate),
      amount: cents(amount),
    }
    return {
      position,
      label: lineName(line, table, 'en'),
      amount: moneyInWords(line.amount, table.currency, 'en'),
    }
  })
  return sortByStop(priced.told, named, sharesOf(priced, lines), table.currency, 'en')
}

/** Sorts lines that are shown by stop; null of a job without stops. */
export function sortByStop(
  { stops = [] }: Pick<Told, 'stops'>,
  lines: readonly ShownLine[],
  shares: readonly LineShare[],
  currency: string,
  language: Language,
): PriceByStop | null {
  if (stops.length === 0) return null
  const isShared = new Set(shares.map(({ position }) => position))
  const lineAt = new Map(lines.map(line => [line.position, line]))
  const money = (amount: string) => moneyInWords(amount, currency, language)
  return {
    stops: stops.map(({ name, spot, note }, at) => {
      const own = shares.filter(({ stop }) => stop === at)
      return {
        ...{ name, spot, note },
        subtotal: money(cents(sumOf(own.map(({ amount }) => new Decimal(amount))))),
        lines: own.flatMap(({ position, amount }) => {
          const line = lineAt.get(position)
          return line ? [{ ...line, amount: money(amount) }] : []
        }),
      }
    }),
    whole: lines.filter(({ position }) => !isShared.has(position)),
  }
}
