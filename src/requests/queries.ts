import type { InsertObject, Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { NotFound, Refusal } from '../http/errors.ts'
import { isQuiet } from '../outbox/quiet.ts'

/** The next number of a year, as '26-0042'; holds the year's row until the transaction ends, so that none is given twice. */
export async function takeNumber(trx: Transaction<Database>, year: number): Promise<string> {
  const { last } = await trx
    .insertInto('request_year')
    .values({ year, last: 1 })
    .onConflict(conflict =>
      conflict.column('year').doUpdateSet(eb => ({ last: eb('request_year.last', '+', 1) })),
    )
    .returning('last')
    .executeTakeFirstOrThrow()
  return `${String(year % 100).padStart(2, '0')}-${String(last).padStart(4, '0')}`
}

export async function insertQuoteRequest(
  trx: Transaction<Database>,
  row: InsertObject<Database, 'quote_request'>,
): Promise<number> {
  const { id } = await trx.insertInto('quote_request').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

/** The quote request that was made under a submission key of this content, or that has this number. */
export async function findSubmitted(
  db: Kysely<Database>,
  key: string,
  of: { contentHash: string; number?: string | undefined },
) {
  const { contentHash, number = '' } = of
  return db
    .selectFrom('quote_request')
    .select(['id', 'number'])
    .where('submission_key', '=', key)
    .where(eb => eb.or([eb('content_hash', '=', contentHash), eb('number', '=', number)]))
    .orderBy(eb => eb('content_hash', '=', contentHash), 'desc')
    .executeTakeFirst()
}

/**
 * All that the staff see of one quote request: who and where, the beds, the range as it was stored.
 * @throws {NotFound} when there is none with this number
 */
export async function requireRequest(db: Kysely<Database>, number: string) {
  const row = await db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .select([
      'quote_request.id',
      'quote_request.number',
      'quote_request.stage',
      'quote_request.stage_at',
      'quote_request.arrived_at',
      'quote_request.put_in_by',
      'quote_request.sent_as',
      'quote_request.language as customer_language',
      'quote_request.preferred_times',
      'quote_request.note',
      'quote_request.told',
      'quote_request.understood',
      'quote_request.measured',
      'quote_request.measured_understood',
      'quote_request.agreed',
      'quote_request.visit_left_out',
      'quote_request.calls',
      'quote_request.on_hold_until',
      'quote_request.given_to',
      'quote_request.news_from',
      'quote_request.junk_at',
      'quote_request.unsuited_at',
      'quote_request.customer_id',
      'quote_request.erased_at',
      'quote_request.place_id',
      'customer.head_id as customer_head_id',
      'place.head_id as place_head_id',
      'customer.name as customer_name',
      'customer.phone',
      'customer.email',
      'customer.email_confirmed_at',
      isQuiet.as('is_quiet'),
      'place.street',
      'place.postcode',
      'place.gate',
      'place.dog',
      'ballpark.low',
      'ballpark.likely',
      'ballpark.high',
      'ballpark.rate_table_id',
    ])
    .where('quote_request.number', '=', number)
    .executeTakeFirst()
  if (!row) throw new NotFound()
  if (row.erased_at) throw new Refusal(410, 'error.erased')
  return row
}

export type RequestRow = Awaited<ReturnType<typeof requireRequest>>

/**
 * The id of the request with a number.
 * @throws {NotFound} when there is none
 */
export async function requireRequestId(db: Kysely<Database>, number: string): Promise<number> {
  const row = await db
    .selectFrom('quote_request')
    .select(['id', 'erased_at'])
    .where('number', '=', number)
    .executeTakeFirst()
  if (!row) throw new NotFound()
  if (row.erased_at) throw new Refusal(410, 'error.erased')
  return row.id
}
