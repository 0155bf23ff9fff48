import { type Insertable, type Kysely, sql, type Transaction } from 'kysely'
import type { Database, FigureLookedAtTable, RateTableTable } from '../db/schema.ts'
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

/** A figure that rate tables start with, with the value that somebody has looked at. */
export interface LookedAt {
  key: string
  figure: string
}

/** The rate table in force with every figure that was looked at, in one query. Undefined before set-up. */
export async function findTableAndLookedAt(
  db: Kysely<Database>,
  now: Temporal.Instant,
): Promise<{ body: RateTable; lookedAt: LookedAt[] } | undefined> {
  const found = await newestWhoseDayHasCome(db, now)
    .select(
      sql<LookedAt[]>`(select coalesce(jsonb_agg(jsonb_build_object('key', key, 'figure', figure)), '[]')
        from figure_looked_at)`.as('lookedAt'),
    )
    .executeTakeFirst()
  return found && { body: completeTable(found.body), lookedAt: found.lookedAt }
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

/** Keeps what was looked at; what was looked at before stays with its moment. Gives how many are new. */
export async function insertLookedAt(
  trx: Transaction<Database>,
  rows: Insertable<FigureLookedAtTable>[],
): Promise<number> {
  const { numInsertedOrUpdatedRows } = await trx
    .insertInto('figure_looked_at')
    .values(rows)
    .onConflict(conflict => conflict.doNothing())
    .executeTakeFirstOrThrow()
  return Number(numInsertedOrUpdatedRows)
}
