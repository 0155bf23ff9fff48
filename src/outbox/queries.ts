import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'

/** A message of the outbox with what it is about: the request, who asks, the place, the range. */
export async function findOutboxMessage(db: Kysely<Database>, id: string) {
  return messages(db).where('outbox.id', '=', id).executeTakeFirst()
}

export type OutboxMessage = NonNullable<Awaited<ReturnType<typeof findOutboxMessage>>>

/** The newest messages, those that were not sent before those that were. */
export async function findOutbox(db: Kysely<Database>, limit: number): Promise<OutboxMessage[]> {
  return messages(db)
    .orderBy(eb => eb('outbox.sent_at', 'is not', null))
    .orderBy('outbox.made_at', 'desc')
    .limit(limit)
    .execute()
}

function messages(db: Kysely<Database>) {
  return db
    .selectFrom('outbox')
    .innerJoin('quote_request', 'quote_request.id', 'outbox.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .selectAll('outbox')
    .select(['quote_request.id as request_id', 'quote_request.number', 'quote_request.language'])
    .select('quote_request.sent_as')
    .select(['customer.phone', 'customer.email', 'customer.email_confirmed_at'])
    .select(['customer.name', 'place.street', 'place.postcode', 'quote_request.note'])
    .select(['ballpark.low', 'ballpark.high'])
}

export async function markSent(db: Kysely<Database>, id: string, at: Temporal.Instant): Promise<void> {
  await db
    .updateTable('outbox')
    .set(eb => ({ sent_at: at.toString(), last_fault: null, attempts: eb('attempts', '+', 1) }))
    .where('id', '=', id)
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
