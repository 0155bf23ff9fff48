import type { Insertable, Kysely, Transaction } from 'kysely'
import type { Database, RateTableTable } from '../db/schema.ts'
import { completeTable } from '../estimate/complete-table.ts'
import type { RateTable } from '../estimate/rate-table.ts'

export interface RateTableVersion {
  id: number
  version: number
  body: RateTable
}

/** The rate table in force at a moment: the newest version whose day has come. Undefined before set-up. */
export async function findRateTable(
  db: Kysely<Database>,
  now: Temporal.Instant,
): Promise<RateTableVersion | undefined> {
  const found = await newestWhoseDayHasCome(db, now).executeTakeFirst()
  return found && { ...found, body: completeTable(found.body) }
}

function newestWhoseDayHasCome(db: Kysely<Database>, now: Temporal.Instant) {
  return db
    .selectFrom('rate_table')
    .select(['id', 'version', 'body'])
    .where(eb => eb.or([eb('in_force_from', 'is', null), eb('in_force_from', '<=', now.toString())]))
    .orderBy('version', 'desc')
    .limit(1)
}

/** The newest version, in force or waiting for its day. Undefined before set-up. */
export async function findNewestVersion(
  db: Kysely<Database>,
): Promise<(RateTableVersion & { in_force_from: string | null }) | undefined> {
  const found = await db
    .selectFrom('rate_table')
    .select(['id', 'version', 'body', 'in_force_from'])
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst()
  return found && { ...found, body: completeTable(found.body) }
}

/** One version by its id, as a ballpark or a quote remembers it. */
export async function requireRateTable(db: Kysely<Database>, id: number): Promise<RateTableVersion> {
  const found = await db
    .selectFrom('rate_table')
    .select(['id', 'version', 'body'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return { ...found, body: completeTable(found.body) }
}

/** One version by its number; undefined when there is none. */
export async function findVersion(
  db: Kysely<Database>,
  version: number,
): Promise<RateTableVersion | undefined> {
  const found = await db
    .selectFrom('rate_table')
    .select(['id', 'version', 'body'])
    .where('version', '=', version)
    .executeTakeFirst()
  return found && { ...found, body: completeTable(found.body) }
}

/** The version that was in force before one was made: the newest earlier one whose day has come. */
export async function findVersionBefore(
  db: Kysely<Database>,
  version: number,
  now: Temporal.Instant,
): Promise<RateTableVersion | undefined> {
  const found = await newestWhoseDayHasCome(db, now).where('version', '<', version).executeTakeFirst()
  return found && { ...found, body: completeTable(found.body) }
}

export async function insertRateTable(
  trx: Transaction<Database>,
  row: Insertable<RateTableTable>,
): Promise<void> {
  await trx.insertInto('rate_table').values(row).execute()
}
