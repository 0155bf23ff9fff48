import type { Insertable, Kysely, Transaction } from 'kysely'
import type { Database, SessionTable } from '../db/schema.ts'

/** The account of a session that has neither ended nor been idle since `idleSince` (ISO 8601). */
export async function findSessionAccount(
  db: Kysely<Database>,
  secretHash: string,
  now: string,
  idleSince: string,
) {
  return db
    .selectFrom('session')
    .innerJoin('account', 'account.id', 'session.account_id')
    .select(['account.id', 'account.name', 'account.email', 'account.role', 'session.seen_at'])
    .where('session.secret_hash', '=', secretHash)
    .where('session.ends_at', '>', now)
    .where('session.seen_at', '>', idleSince)
    .where('account.ended_at', 'is', null)
    .executeTakeFirst()
}

export async function touchSession(db: Kysely<Database>, secretHash: string, now: string): Promise<void> {
  await db.updateTable('session').set({ seen_at: now }).where('secret_hash', '=', secretHash).execute()
}

export async function insertSession(
  trx: Transaction<Database>,
  row: Insertable<SessionTable>,
): Promise<void> {
  await trx.insertInto('session').values(row).execute()
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

/** The sessions of an account that still stand, the last used first. */
export async function findSessions(db: Kysely<Database>, accountId: number, now: string, idleSince: string) {
  return db
    .selectFrom('session')
    .select(['secret_hash', 'made_at', 'seen_at'])
    .where('account_id', '=', accountId)
    .where('ends_at', '>', now)
    .where('seen_at', '>', idleSince)
    .orderBy('seen_at', 'desc')
    .execute()
}

/** Clears away, over all accounts, the sessions that are over. */
export async function deleteEndedSessions(
  trx: Transaction<Database>,
  now: string,
  idleSince: string,
): Promise<void> {
  await trx
    .deleteFrom('session')
    .where(eb => eb.or([eb('ends_at', '<=', now), eb('seen_at', '<=', idleSince)]))
    .execute()
}
