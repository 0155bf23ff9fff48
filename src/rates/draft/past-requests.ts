import type { Kysely } from 'kysely'
import type { Database } from '../../db/schema.ts'
import type { Terms } from '../../estimate/job/terms.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { bedsOf, type StoredBeds, withPostcode } from '../../estimate/understood/stored.ts'
import { requireRateTable } from '../queries.ts'

/** A request that came in, with the beds and terms that a price of it is worked out from today. */
export interface PastRequest {
  number: string
  name: string
  beds: StoredBeds
  /** Undefined while nothing was quoted. */
  terms: Terms | undefined
  /** The version that it was quoted with, else that of its ballpark. */
  table: RateTable
}

/** The last requests, newest first: as quoted, else as measured, else as told. */
export async function findPastRequests(db: Kysely<Database>, most: number): Promise<PastRequest[]> {
  const rows = await db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .innerJoin(
      eb =>
        eb
          .selectFrom('ballpark')
          .distinctOn('quote_request_id')
          .select(['quote_request_id', 'rate_table_id'])
          .orderBy('quote_request_id')
          .orderBy('id', 'desc')
          .as('ballpark'),
      join => join.onRef('ballpark.quote_request_id', '=', 'quote_request.id'),
    )
    .leftJoin(
      eb =>
        eb
          .selectFrom('quote')
          .distinctOn('quote_request_id')
          .select(['quote_request_id', 'job', 'understood', 'terms', 'rate_table_id'])
          .orderBy('quote_request_id')
          .orderBy('revision', 'desc')
          .as('newest'),
      join => join.onRef('newest.quote_request_id', '=', 'quote_request.id'),
    )
    .select([
      'number',
      'customer.name',
      'told',
      'quote_request.understood',
      'measured',
      'measured_understood',
      'place.postcode',
      'newest.job',
      'newest.understood as job_understood',
      'newest.terms',
      eb => eb.fn.coalesce('newest.rate_table_id', 'ballpark.rate_table_id').as('version'),
    ])
    .orderBy('quote_request.id', 'desc')
    .limit(most)
    .execute()
  const tables = new Map<number, RateTable>()
  for (const id of new Set(rows.map(({ version }) => version)))
    tables.set(id, (await requireRateTable(db, id)).body)
  return rows.map(({ number, name, postcode, job, job_understood, terms, version, ...request }) => ({
    number,
    name,
    beds: withPostcode(job ? { told: job, understood: job_understood } : bedsOf(request), postcode),
    terms: terms ?? undefined,
    table: tables.get(version)!,
  }))
}
