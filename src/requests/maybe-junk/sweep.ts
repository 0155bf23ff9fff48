import type { Kysely } from 'kysely'
import type { Database } from '../../db/schema.ts'

export const KEPT_DAYS = 30

/** Deletes for good what was held as maybe junk for a month, with its photos. */
export async function sweepMaybeJunk(db: Kysely<Database>, now: Temporal.Instant): Promise<void> {
  const before = now.subtract({ hours: KEPT_DAYS * 24 })
  await db.deleteFrom('maybe_junk').where('arrived_at', '<=', before.toString()).execute()
}
