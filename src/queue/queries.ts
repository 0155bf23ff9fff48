import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'

/** The newest revision of a request's quote with its lines in order; undefined while there is none. */
export async function findNewestQuote(db: Kysely<Database>, quoteRequestId: number) {
  const quote = await db
    .selectFrom('quote')
    .innerJoin('account', 'account.id', 'quote.made_by')
    .leftJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .selectAll('quote')
    .select(['account.name as made_by_name', 'acceptance.typed_name', 'acceptance.accepted_at'])
    .where('quote.quote_request_id', '=', quoteRequestId)
    .orderBy('quote.revision', 'desc')
    .limit(1)
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

export type QuoteWithLines = NonNullable<Awaited<ReturnType<typeof findNewestQuote>>>
