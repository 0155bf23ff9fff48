import type { Insertable, Kysely, Transaction } from 'kysely'
import type { QuoteTable, QuoteVariantTable } from '../db/schema/quotes.ts'
import type { Database } from '../db/schema.ts'
import { NotFound } from '../http/errors.ts'
import type { ComposedLine } from './compose-lines.ts'

/** The newest revision of a request's quote with its lines in order; undefined while there is none. */
export async function findNewestQuote(db: Kysely<Database>, quoteRequestId: number) {
  const revision = await newestRevision(db, quoteRequestId)
  return revision === 0 ? undefined : findQuote(db, quoteRequestId, revision)
}

/** The revision that was accepted last, by which the work goes; undefined while none was. */
export async function findAcceptedQuote(db: Kysely<Database>, quoteRequestId: number) {
  const last = await db
    .selectFrom('quote')
    .innerJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .select('revision')
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('revision', 'desc')
    .limit(1)
    .executeTakeFirst()
  return last && findQuote(db, quoteRequestId, last.revision)
}

/** Whether a change to accepted work was taken back by the staff. */
export async function isWithdrawn(db: Kysely<Database>, quoteId: number): Promise<boolean> {
  const row = await db
    .selectFrom('change_declined')
    .select('quote_id')
    .where('quote_id', '=', quoteId)
    .where('withdrawn_by', 'is not', null)
    .executeTakeFirst()
  return row !== undefined
}

/** One revision of a request's quote, who made it, its acceptance if there is one, and its lines in order. */
export async function findQuote(db: Kysely<Database>, quoteRequestId: number, revision: number) {
  const quote = await db
    .selectFrom('quote')
    .innerJoin('account', 'account.id', 'quote.made_by')
    .innerJoin('quote_request', 'quote_request.id', 'quote.quote_request_id')
    .leftJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .selectAll('quote')
    .select(['account.name as made_by_name', 'acceptance.typed_name', 'acceptance.accepted_at'])
    .select('quote_request.language')
    .where('quote.quote_request_id', '=', quoteRequestId)
    .where('quote.revision', '=', revision)
    .executeTakeFirst()
  if (!quote) return undefined
  const lines = await db
    .selectFrom('quote_line')
    .select([
      'position',
      'kind',
      'slug',
      'description',
      'quantity',
      'unit',
      'rate',
      'worked_out',
      'amount',
      'reason',
    ])
    .where('quote_id', '=', quote.id)
    .orderBy('position')
    .execute()
  return { ...quote, lines }
}

export type QuoteWithLines = NonNullable<Awaited<ReturnType<typeof findQuote>>>

/** The number of the newest revision, 0 while there is none. */
export async function newestRevision(db: Kysely<Database>, quoteRequestId: number): Promise<number> {
  const { newest } = await db
    .selectFrom('quote')
    .select(eb => eb.fn.max('revision').as('newest'))
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
  return newest ?? 0
}

/**
 * What a price is worked out from.
 * @throws {NotFound} when there is no such request
 */
export async function requirePriceable(db: Kysely<Database>, quoteRequestId: number) {
  const row = await db
    .selectFrom('quote_request')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select([
      'number',
      'stage',
      'told',
      'understood',
      'measured',
      'measured_understood',
      'agreed',
      'language',
      'place.postcode',
    ])
    .where('quote_request.id', '=', quoteRequestId)
    .executeTakeFirst()
  if (!row) throw new NotFound()
  return row
}

/** Gives the id of the quote. */
export async function insertQuote(
  trx: Transaction<Database>,
  quote: Insertable<QuoteTable>,
  lines: ComposedLine[],
): Promise<number> {
  const { id } = await trx.insertInto('quote').values(quote).returning('id').executeTakeFirstOrThrow()
  await trx
    .insertInto('quote_line')
    .values(lines.map(line => ({ ...line, quote_id: id })))
    .execute()
  return id
}

export async function insertVariants(
  trx: Transaction<Database>,
  quoteId: number,
  variants: Omit<Insertable<QuoteVariantTable>, 'quote_id'>[],
): Promise<void> {
  await trx
    .insertInto('quote_variant')
    .values(variants.map(variant => ({ ...variant, quote_id: quoteId })))
    .execute()
}

/** A quote with one combination of its choices, by its digits; undefined where that isn't offered. */
export async function findVariant(db: Kysely<Database>, quoteId: number, picks: string) {
  return db
    .selectFrom('quote_variant')
    .selectAll()
    .where('quote_id', '=', quoteId)
    .where('picks', '=', picks)
    .executeTakeFirst()
}

/** What every combination of a quote's choices comes to, by its digits. */
export async function findVariantTotals(db: Kysely<Database>, quoteId: number): Promise<Map<string, string>> {
  const rows = await db
    .selectFrom('quote_variant')
    .select(['picks', 'total'])
    .where('quote_id', '=', quoteId)
    .execute()
  return new Map(rows.map(({ picks, total }) => [picks, total]))
}

/** The revisions of a request's quote before the newest, newest first. */
export async function findEarlierQuotes(db: Kysely<Database>, quoteRequestId: number, newest: number) {
  return db
    .selectFrom('quote')
    .select(['revision', 'total', 'currency', 'made_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('revision', '<', newest)
    .orderBy('revision', 'desc')
    .execute()
}

/** When a quote's booking link was sent by hand. */
export async function findSent(db: Kysely<Database>, quoteId: number) {
  return db.selectFrom('quote_sent').select('sent_at').where('quote_id', '=', quoteId).executeTakeFirst()
}
