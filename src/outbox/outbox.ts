import { randomUUID } from 'node:crypto'
import type { Transaction } from 'kysely'
import type { Database, OutboxTable, Way } from '../db/schema.ts'
import type { Jobs } from '../deps.ts'
import { hasGateway } from './gateway.ts'
import { OUT_OF_DATE } from './given-up.ts'

/** The messages to homeowners. */
export type HomeownerMessage =
  | 'request-received'
  | 'receipt'
  | 'own-link'
  | 'visit-set'
  | 'visit-off'
  | 'quote-ready'
  | 'day-booked'
  | 'canceled'
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
  | 'question-staff'

const SETTLED: MessageKind[] = ['visit-set', 'visit-off', 'quote-ready']

/** Which unsent messages to the homeowner are overtaken by what another one tells, beyond one of the same kind. */
const OVERTAKES: Partial<Record<MessageKind, MessageKind[]>> = {
  'visit-set': ['visit-set', 'visit-off'],
  'visit-off': ['visit-set', 'visit-off'],
  'quote-ready': SETTLED,
  'day-booked': [...SETTLED, 'day-booked'],
  'turned-down': [...SETTLED, 'turned-down', 'taken-back'],
  'taken-back': ['turned-down', 'taken-back'],
  'not-taken-staff': SETTLED,
  canceled: [...SETTLED, 'request-received', 'receipt', 'own-link', 'day-booked'],
}

/**
 * Puts a message into the outbox and its sending into the job queue, both in the transaction that causes it. What it
 * overtakes is dropped: what is unsent to the homeowner of the same kind would say the same.
 */
export async function putInOutbox(
  trx: Transaction<Database>,
  jobs: Jobs,
  kind: MessageKind,
  recipient: OutboxTable['recipient'],
  quoteRequestId: number,
  at: Temporal.Instant,
  way: Way = 'mail',
): Promise<void> {
  const overtaken = OVERTAKES[kind] ?? (recipient === 'homeowner' ? [kind] : [])
  if (overtaken.length > 0) await dropUnsent(trx, quoteRequestId, overtaken)
  const id = randomUUID()
  await trx
    .insertInto('outbox')
    .values({
      id,
      kind,
      recipient,
      way,
      quote_request_id: quoteRequestId,
      made_at: at.toString(),
      tried_from: at.toString(),
      sent_at: null,
      last_fault: null,
    })
    .execute()
  await putOn(trx, jobs, id, way)
}

/** Puts the sending of a message on; a text that is to be passed on by hand only waits. */
export async function putOn(trx: Transaction<Database>, jobs: Jobs, id: string, way: Way): Promise<void> {
  if (way === 'mail') await jobs.sendMail(trx, id)
  else if (await hasGateway(trx)) await jobs.sendText(trx, id)
}

/** Drops what is unsent of these messages about a request, as things have moved on. */
export async function dropUnsent(
  trx: Transaction<Database>,
  quoteRequestId: number,
  kinds: MessageKind[],
): Promise<void> {
  await trx
    .updateTable('outbox')
    .set({ last_fault: OUT_OF_DATE })
    .where('quote_request_id', '=', quoteRequestId)
    .where('recipient', '=', 'homeowner')
    .where('kind', 'in', kinds)
    .where('sent_at', 'is', null)
    .execute()
}
