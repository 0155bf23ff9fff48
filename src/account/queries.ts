import type { Kysely, Selectable } from 'kysely'
import type { BusinessTable, Database } from '../db/schema.ts'

export type Business = Selectable<BusinessTable>

/** The business that this installation serves; undefined before set-up. */
export async function findBusiness(db: Kysely<Database>): Promise<Business | undefined> {
  return db.selectFrom('business').selectAll().executeTakeFirst()
}

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
    .executeTakeFirst()
}

export async function touchSession(db: Kysely<Database>, secretHash: string, now: string): Promise<void> {
  await db.updateTable('session').set({ seen_at: now }).where('secret_hash', '=', secretHash).execute()
}
