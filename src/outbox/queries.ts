import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { MessageKind } from './kinds.ts'
import { isQuiet } from './quiet.ts'

/** A message of the outbox with what it is about: the request, who asks, the place, the range. */
export async function findOutboxMessage(db: Kysely<Database>, id: string) {
  return selectMessages(db).where('outbox.id', '=', id).executeTakeFirst()
}

export type OutboxMessage = NonNullable<Awaited<ReturnType<typeof findOutboxMessage>>>

/** Which messages are looked for: of one request, by its number, or of all. */
export interface OutboxPart {
  request: string | null
  limit: number
}

/** What is not sent and was not dropped, oldest first. */
export async function findUnsent(db: Kysely<Database>, part: OutboxPart): Promise<OutboxMessage[]> {
  return partOf(db, part)
    .where('outbox.sent_at', 'is', null)
    .where(isDroppedInSql, '=', false)
    .orderBy('outbox.made_at')
    .execute()
}

/** What was sent, or dropped, newest first. */
export async function findSettled(
  db: Kysely<Database>,
  part: OutboxPart,
  as: 'sent' | 'dropped',
): Promise<OutboxMessage[]> {
  return partOf(db, part)
    .$if(as === 'sent', query => query.where('outbox.sent_at', 'is not', null))
    .$if(as === 'dropped', query =>
      query.where('outbox.sent_at', 'is', null).where(isDroppedInSql, '=', true),
    )
    .orderBy('outbox.made_at', 'desc')
    .execute()
}

const isDroppedInSql = sql<boolean>`coalesce(starts_with(outbox.last_fault, 'dropped: '), false)`

function partOf(db: Kysely<Database>, { request, limit }: OutboxPart) {
  return selectMessages(db)
    .$if(request !== null, query => query.where('quote_request.number', '=', request))
    .limit(limit)
}

/** Messages of the outbox with what they are about, to be narrowed down. */
export function selectMessages(db: Kysely<Database>) {
  return db
    .selectFrom('outbox')
    .innerJoin('quote_request', 'quote_request.id', 'outbox.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .selectAll('outbox')
    .select(['quote_request.id as request_id', 'quote_request.number', 'quote_request.language'])
    .select(['quote_request.stage', 'customer.id as customer_id', isQuiet.as('is_quiet')])
    .select('quote_request.sent_as')
    .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
    .select(['customer.phone', 'customer.email', 'customer.email_confirmed_at'])
    .select(['customer.name', 'place.street', 'place.postcode', 'quote_request.note'])
    .select(['ballpark.low', 'ballpark.high'])
}

/** Whether a message of a kind about a request has gone out; another one than `except`. */
export async function wasSent(
  db: Kysely<Database>,
  quoteRequestId: number,
  kind: MessageKind,
  except?: string,
): Promise<boolean> {
  const row = await db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', quoteRequestId)
    .where('kind', '=', kind)
    .where('sent_at', 'is not', null)
    .$if(except !== undefined, query => query.where('id', '<>', except!))
    .executeTakeFirst()
  return row !== undefined
}

/** Notes that a message went out; of a summary, all that it told too. */
export async function markSent(db: Kysely<Database>, id: string, at: Temporal.Instant): Promise<void> {
  await db
    .updateTable('outbox')
    .set(eb => ({ sent_at: at.toString(), last_fault: null, attempts: eb('attempts', '+', 1) }))
    .where(eb => eb.or([eb('id', '=', id), eb('digest_id', '=', id)]))
    .execute()
}

/** Notes why a message waits that was not tried. */
export async function markWaiting(db: Kysely<Database>, id: string, why: string): Promise<void> {
  await db.updateTable('outbox').set({ last_fault: why }).where('id', '=', id).execute()
}

/** `fault` is a word of faults.ts, never what a mail server said: that may quote an address. */
export async function markFault(db: Kysely<Database>, id: string, fault: string): Promise<void> {
  await db
    .updateTable('outbox')
    .set(eb => ({ last_fault: fault, attempts: eb('attempts', '+', 1) }))
    .where('id', '=', id)
    .execute()
}
