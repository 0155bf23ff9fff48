import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'

/** All that the homeowner's own page tells of a quote request. */
export async function requireOwnRequest(db: Kysely<Database>, id: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .select(['quote_request.id', 'quote_request.number', 'quote_request.stage', 'quote_request.told'])
    .select(['quote_request.understood', 'quote_request.put_in_by'])
    .select([
      'quote_request.sent_as',
      'quote_request.arrived_at',
      'quote_request.preferred_times',
      'quote_request.note',
    ])
    .select('customer.id as customer_id')
    .select(['customer.name', 'customer.phone', 'customer.email', 'customer.email_confirmed_at'])
    .select(['place.street', 'place.postcode', 'place.gate', 'place.dog'])
    .select(['ballpark.rate_table_id', 'ballpark.result'])
    .where('quote_request.id', '=', id)
    .executeTakeFirstOrThrow()
}
