import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'

/** Background work, put on in the transaction that causes it. */
export interface Jobs {
  sendMail(trx: Transaction<Database>, outboxId: string): Promise<void>
}
