import { type Kysely, sql } from 'kysely'
import type { Store } from './db/open.ts'
import type { Database } from './db/schema.ts'

/** How old the last nightly backup may be before the staff are told. */
const OLDEST = { hours: 48 }

/** How the nightly backups went; null where none was tried yet, as on PostgreSQL. */
export async function findStoreBackup(db: Kysely<Database>) {
  return (await db.selectFrom('store_backup').selectAll().executeTakeFirst()) ?? null
}

export type StoreBackup = NonNullable<Awaited<ReturnType<typeof findStoreBackup>>>

/** What is wrong with the nightly backups, in a sentence; null while one was made within two days, or the store is younger, or is not ours to back up. */
export async function findBackupTrouble(
  db: Kysely<Database>,
  kind: Store['kind'],
  now: Temporal.Instant,
): Promise<string | null> {
  const last = await findStoreBackup(db)
  if (last) return backupTrouble(last, now)
  if (kind !== 'embedded') return null
  return isOld(await madeAt(db), now) ? 'No backup has been made in more than two days.' : null
}

/** The same of the last of them. */
export function backupTrouble(last: StoreBackup, now: Temporal.Instant): string | null {
  if (last.fault) return `Last night’s backup failed: ${last.fault.replace('The backup failed: ', '')}`
  return isOld(Temporal.Instant.from(last.tried_at), now)
    ? 'The last backup is more than two days old.'
    : null
}

/** When the store's tables were made, here: one that was restored or moved is as young as that. */
async function madeAt(db: Kysely<Database>): Promise<Temporal.Instant> {
  const { rows } = await sql<{ at: string }>`select min(timestamp) as at from kysely_migration`.execute(db)
  return Temporal.Instant.from(rows[0]!.at)
}

function isOld(at: Temporal.Instant, now: Temporal.Instant): boolean {
  return Temporal.Instant.compare(at, now.subtract(OLDEST)) < 0
}
