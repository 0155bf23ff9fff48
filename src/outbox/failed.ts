import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import { kindInWords } from './kind-words.ts'
import type { MessageKind } from './kinds.ts'
import { refusalInWords } from './refusal-words.ts'

/** A message to the homeowner that failed for good: which, and why. */
export interface FailedMessage {
  what: string
  why: string
}

/** What couldn't be told the homeowner of a request, oldest first. */
export async function findFailed(db: Kysely<Database>, quoteRequestId: number): Promise<FailedMessage[]> {
  const rows = await db
    .selectFrom('outbox')
    .select(['kind', 'last_fault'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('recipient', '=', 'homeowner')
    .where('sent_at', 'is', null)
    .where(sql<boolean>`starts_with(last_fault, 'stopped: ')`)
    .orderBy('made_at')
    .execute()
  return rows.map(({ kind, last_fault }) => ({
    what: kindInWords(kind as MessageKind),
    why: refusalInWords(last_fault ?? ''),
  }))
}
