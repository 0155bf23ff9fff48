import { type Kysely, sql } from 'kysely'
import type { AccessLogTable } from '../db/schema/privacy.ts'
import type { Database } from '../db/schema.ts'

/** Writes down who took data out or erased it, whose, and of which requests, by their numbers. */
export async function noteAccess(
  db: Kysely<Database>,
  entry: Pick<AccessLogTable, 'account_id' | 'verb' | 'customer_id'>,
  requests: { number: string }[],
  at: Temporal.Instant,
): Promise<void> {
  const numbers = requests.map(({ number }) => number)
  await db
    .insertInto('access_log')
    .values({ ...entry, at: at.toString(), requests: sql`${numbers}::text[]` })
    .execute()
}
