import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { NotFound } from '../http/errors.ts'

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
      'quote_request.language as customer_language',
      'quote_request.preferred_times',
      'quote_request.note',
      'quote_request.told',
      'quote_request.measured',
      'quote_request.visit_left_out',
      'customer.name as customer_name',
      'customer.phone',
      'customer.email',
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
    .select('id')
    .where('number', '=', number)
    .executeTakeFirst()
  if (!row) throw new NotFound()
  return row.id
}
