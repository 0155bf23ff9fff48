import { randomUUID } from 'node:crypto'
import type { Transaction } from 'kysely'
import type { Database, OutboxTable } from '../db/schema.ts'
import type { Jobs } from '../deps.ts'

/** The messages to homeowners. */
export type HomeownerMessage =
  | 'request-received'
  | 'receipt'
  | 'visit-set'
  | 'quote-ready'
  | 'day-booked'
  | 'turned-down'
  | 'taken-back'

/** The messages that there are; each has a function of its own in messages.ts. */
export type MessageKind =
  | HomeownerMessage
  | 'request-arrived'
  | 'accepted-staff'
  | 'day-booked-staff'
  | 'not-taken-staff'
  | 'called-off-staff'
  | 'note-staff'

/** Puts a message into the outbox and its sending into the job queue, both in the transaction that causes it. */
export async function putInOutbox(
  trx: Transaction<Database>,
  jobs: Jobs,
  kind: MessageKind,
  recipient: OutboxTable['recipient'],
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<void> {
  const id = randomUUID()
  await trx
    .insertInto('outbox')
    .values({
      id,
      kind,
      recipient,
      quote_request_id: quoteRequestId,
      made_at: at.toString(),
      sent_at: null,
      last_fault: null,
    })
    .execute()
  await jobs.sendMail(trx, id)
}
