import { type Insertable, type Kysely, sql, type Transaction } from 'kysely'
import type { SessionTable } from '../db/schema/accounts.ts'
import type { Database } from '../db/schema.ts'
import type { Lasting } from './lasting.ts'

/** The account of a session that at `now` (ISO 8601) has neither ended nor lain unused too long. */
export async function findSessionAccount(db: Kysely<Database>, secretHash: string, now: string) {
  return db
    .selectFrom('session')
    .innerJoin('account', 'account.id', 'session.account_id')
    .select([
      'account.id',
      'account.name',
      'account.email',
      'account.role',
      'session.seen_at',
      'session.proved_at',
    ])
    .where('session.secret_hash', '=', secretHash)
    .where(standsAt(now))
    .where('account.ended_at', 'is', null)
    .executeTakeFirst()
}

export async function touchSession(db: Kysely<Database>, secretHash: string, now: string): Promise<void> {
  await db.updateTable('session').set({ seen_at: now }).where('secret_hash', '=', secretHash).execute()
}

/** Notes that the password of a session was typed at `at`, ISO 8601. */
export async function markProved(db: Kysely<Database>, secretHash: string, at: string): Promise<void> {
  await db.updateTable('session').set({ proved_at: at }).where('secret_hash', '=', secretHash).execute()
}

export async function insertSession(
  trx: Transaction<Database>,
  row: Insertable<SessionTable>,
): Promise<void> {
  await trx.insertInto('session').values(row).execute()
}

/** How long a session of an account was to last when it was made; undefined where there is none. */
export async function findLasting(
  db: Kysely<Database>,
  accountId: number,
  secretHash: string,
): Promise<Lasting | undefined> {
  const row = await db
    .selectFrom('session')
    .select(['made_at', 'ends_at', 'idle_days'])
    .where('account_id', '=', accountId)
    .where('secret_hash', '=', secretHash)
    .executeTakeFirst()
  if (!row) return undefined
  const lasts = Temporal.Instant.from(row.made_at).until(Temporal.Instant.from(row.ends_at))
  return { days: Math.round(lasts.total('hours') / 24), idleDays: row.idle_days }
}

export async function deleteSession(db: Kysely<Database>, secretHash: string): Promise<void> {
  await db.deleteFrom('session').where('secret_hash', '=', secretHash).execute()
}

/** Ends every session of an account but one; gives how many there were. */
export async function deleteOtherSessions(
  db: Kysely<Database>,
  accountId: number,
  keptHash: string,
): Promise<number> {
  const { numDeletedRows } = await db
    .deleteFrom('session')
    .where('account_id', '=', accountId)
    .where('secret_hash', '<>', keptHash)
    .executeTakeFirstOrThrow()
  return Number(numDeletedRows)
}

/** Ends one session of an account by its id; one that is over already is not missed. */
export async function deleteSessionById(db: Kysely<Database>, accountId: number, id: number): Promise<void> {
  await db.deleteFrom('session').where('account_id', '=', accountId).where('id', '=', id).execute()
}

/** The sessions of an account that still stand at `now`, the last used first. */
export async function findSessions(db: Kysely<Database>, accountId: number, now: string) {
  return db
    .selectFrom('session')
    .select(['id', 'secret_hash', 'made_at', 'seen_at', 'browser', 'system'])
    .where('account_id', '=', accountId)
    .where(standsAt(now))
    .orderBy('seen_at', 'desc')
    .orderBy('id')
    .execute()
}

/** Clears away, over all accounts, the sessions that are over at `now`. */
export async function deleteEndedSessions(trx: Transaction<Database>, now: string): Promise<void> {
  await trx.deleteFrom('session').where(standsAt(now), '=', false).execute()
}

const standsAt = (now: string) =>
  sql<boolean>`(session.ends_at > ${now}::timestamptz
    and session.seen_at + session.idle_days * interval '24 hours' > ${now}::timestamptz)`
