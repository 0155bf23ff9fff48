import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'

/** Whether the homeowner said that the day or the time that is set doesn't suit. */
export async function isUnsuited(db: Kysely<Database>, quoteRequestId: number): Promise<boolean> {
  const row = await db
    .selectFrom('quote_request')
    .select('unsuited_at')
    .where('id', '=', quoteRequestId)
    .executeTakeFirst()
  return Boolean(row?.unsuited_at)
}

/** Marks a locked request so; false where it was already. */
export async function markUnsuited(
  trx: Transaction<Database>,
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<boolean> {
  const marked = await trx
    .updateTable('quote_request')
    .set({ unsuited_at: at.toString() })
    .where('id', '=', quoteRequestId)
    .where('unsuited_at', 'is', null)
    .returning('id')
    .executeTakeFirst()
  return marked !== undefined
}

export async function clearUnsuited(trx: Transaction<Database>, quoteRequestId: number): Promise<void> {
  await trx
    .updateTable('quote_request')
    .set({ unsuited_at: null })
    .where('id', '=', quoteRequestId)
    .where('unsuited_at', 'is not', null)
    .execute()
}
