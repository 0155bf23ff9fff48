import type { Kysely } from 'kysely'
import type { Database } from './db/schema.ts'

/** How old the last nightly backup may be before the staff are told. */
const OLDEST = { hours: 48 }

/** How the nightly backups went; null where none was tried yet, as on PostgreSQL. */
export async function findStoreBackup(db: Kysely<Database>) {
  return (await db.selectFrom('store_backup').selectAll().executeTakeFirst()) ?? null
}

export type StoreBackup = NonNullable<Awaited<ReturnType<typeof findStoreBackup>>>

/** What is wrong with the nightly backups, in a sentence; null while one was made within two days. */
export function backupTrouble(last: StoreBackup | null, now: Temporal.Instant): string | null {
  if (!last) return null
  if (last.fault) return `Last night’s backup failed: ${last.fault.replace('The backup failed: ', '')}`
  const isOld = Temporal.Instant.compare(last.tried_at, now.subtract(OLDEST)) < 0
  return isOld ? 'The last backup is more than two days old.' : null
}
