import { type Insertable, type Kysely, sql, type Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { FigureLookedAtTable, RateTableTable } from '../db/schema/rates.ts'
import type { Database } from '../db/schema.ts'
import { completeTable, storedTable } from '../estimate/table/complete-table.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'

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
  return complete(await newestWhoseDayHasCome(db, now).executeTakeFirst())
}

/** The rate table in force, and the moments between which it is, as long as no version is made or called off. */
export interface InForce extends RateTableVersion {
  from: Temporal.Instant | null
  until: Temporal.Instant | null
}

/** The rate table in force at a moment with its own bounds. Undefined before set-up. */
export async function findInForce(db: Kysely<Database>, now: Temporal.Instant): Promise<InForce | undefined> {
  const found = await newestWhoseDayHasCome(db, now).select('in_force_from').executeTakeFirst()
  if (!found) return undefined
  const { in_force_from, ...version } = found
  const { until } = await notCalledOff(db)
    .select(eb => eb.fn.min('in_force_from').as('until'))
    .where('version', '>', version.version)
    .executeTakeFirstOrThrow()
  const moment = (at: string | null) => (at === null ? null : Temporal.Instant.from(at))
  return { ...complete(version), from: moment(in_force_from), until: moment(until) }
}

/** The id of the version in force at a moment; there is one once the business is set up. */
export async function requireIdInForce(db: Kysely<Database>, now: Temporal.Instant): Promise<number> {
  const inForce = newestWhoseDayHasCome(db, now).clearSelect().select('id')
  return (await inForce.executeTakeFirstOrThrow()).id
}

/** The version that was in force at a moment, as far as versions had been made by then; undefined before set-up. */
export async function findInForceThen(
  db: Kysely<Database>,
  at: Temporal.Instant,
): Promise<RateTableVersion | undefined> {
  const made = newestWhoseDayHasCome(db, at).where('made_at', '<=', at.toString())
  return complete(await made.executeTakeFirst())
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
  return standing(db).where(eb =>
    eb.or([eb('in_force_from', 'is', null), eb('in_force_from', '<=', now.toString())]),
  )
}

/** Every version that wasn't called off, the newest first. */
function standing(db: Kysely<Database>) {
  return notCalledOff(db).select(['id', 'version', 'body']).orderBy('version', 'desc').limit(1)
}

function notCalledOff(db: Kysely<Database>) {
  return db
    .selectFrom('rate_table')
    .where(eb =>
      eb.not(
        eb.exists(
          eb
            .selectFrom('rate_table_called_off')
            .select('rate_table_id')
            .whereRef('rate_table_id', '=', 'rate_table.id'),
        ),
      ),
    )
}

/** The newest version that wasn't called off, in force or waiting for its day. Undefined before set-up. */
export async function findNewestVersion(db: Kysely<Database>): Promise<RateTableVersion | undefined> {
  return complete(await standing(db).executeTakeFirst())
}

/** One version by its id, as a ballpark or a quote remembers it. */
export async function requireRateTable(db: Kysely<Database>, id: number): Promise<RateTableVersion> {
  const all = db.selectFrom('rate_table').select(['id', 'version', 'body'])
  return complete(await all.where('id', '=', id).executeTakeFirstOrThrow())
}

/** One version by its number, called off or not; undefined when there is none. */
export async function findVersion(
  db: Kysely<Database>,
  version: number,
): Promise<RateTableVersion | undefined> {
  const all = db.selectFrom('rate_table').select(['id', 'version', 'body'])
  return complete(await all.where('version', '=', version).executeTakeFirst())
}

/** The next version made after one that wasn't called off; undefined while there is none. */
export async function findVersionAfter(
  db: Kysely<Database>,
  version: number,
): Promise<RateTableVersion | undefined> {
  const later = standing(db).where('version', '>', version).clearOrderBy().orderBy('version')
  return complete(await later.executeTakeFirst())
}

/** The version that was in force as one was made: the newest earlier one whose day had come by then. */
export async function findVersionBefore(
  db: Kysely<Database>,
  version: number,
): Promise<RateTableVersion | undefined> {
  const made = await db
    .selectFrom('rate_table')
    .select('made_at')
    .where('version', '=', version)
    .executeTakeFirst()
  if (!made) return undefined
  const then = Temporal.Instant.from(made.made_at)
  return complete(await newestWhoseDayHasCome(db, then).where('version', '<', version).executeTakeFirst())
}

/** The newest version made before one that wasn't called off; undefined of the first. */
export async function findStandingBefore(
  db: Kysely<Database>,
  version: number,
): Promise<RateTableVersion | undefined> {
  return complete(await standing(db).where('version', '<', version).executeTakeFirst())
}

/**
 * The number that the next version gets. Asked for before anything that the next version rests on is read, it is
 * refused as taken where somebody made a version in between.
 */
export async function nextVersionNumber(db: Kysely<Database>): Promise<number> {
  const { highest } = await db
    .selectFrom('rate_table')
    .select(eb => eb.fn.max('version').as('highest'))
    .executeTakeFirstOrThrow()
  return (highest ?? 0) + 1
}

export async function insertRateTable(
  trx: Transaction<Database>,
  { body, ...row }: Omit<Insertable<RateTableTable>, 'body'> & { body: RateTable },
): Promise<void> {
  await trx
    .insertInto('rate_table')
    .values({ ...row, body: json(storedTable(body)) })
    .execute()
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

function complete<T extends RateTableVersion | undefined>(found: T): T {
  return found && { ...found, body: completeTable(found.body) }
}
