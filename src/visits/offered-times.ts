import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'

/** Any number that no other lock of ours has. */
const VISITS = 7_202_601

/**
 * Locks the setting of visits until the transaction ends: whoever asks after it whether a time is free is told what
 * stands. Asked for after the request is locked, and never before.
 */
export async function lockVisits(trx: Transaction<Database>): Promise<void> {
  await sql`select pg_advisory_xact_lock(${VISITS})`.execute(trx)
}

/** The visits ahead that could overlap one from a moment on, but for those of one request. */
export async function findVisitsTaken(db: Kysely<Database>, from: Temporal.Instant, except: number) {
  return db
    .selectFrom('visit')
    .innerJoin('quote_request', 'quote_request.id', 'visit.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select(['visit.starts_at', 'visit.minutes', 'quote_request.number', 'customer.name'])
    .where('visit.done_at', 'is', null)
    .where('visit.called_off_at', 'is', null)
    .where('visit.starts_at', '>', from.subtract({ hours: 24 }).toString())
    .where('visit.quote_request_id', '<>', except)
    .orderBy('visit.starts_at')
    .execute()
}

/** The times that stand to be picked for a request, from a moment on. */
export async function findOffers(
  db: Kysely<Database>,
  quoteRequestId: number,
  from: Temporal.Instant,
): Promise<Temporal.Instant[]> {
  const rows = await db
    .selectFrom('visit_offer')
    .select('starts_at')
    .where('quote_request_id', '=', quoteRequestId)
    .where('ended_at', 'is', null)
    .where('starts_at', '>', from.toString())
    .orderBy('starts_at')
    .execute()
  return rows.map(row => Temporal.Instant.from(row.starts_at))
}

/** Ends the times that stand to be picked; false where there are none. */
export async function endOffers(
  trx: Transaction<Database>,
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<boolean> {
  const ended = await trx
    .updateTable('visit_offer')
    .set({ ended_at: at.toString() })
    .where('quote_request_id', '=', quoteRequestId)
    .where('ended_at', 'is', null)
    .returning('id')
    .execute()
  return ended.length > 0
}

export async function insertOffers(
  trx: Transaction<Database>,
  quoteRequestId: number,
  times: Temporal.Instant[],
  at: Temporal.Instant,
): Promise<void> {
  const made_at = at.toString()
  await trx
    .insertInto('visit_offer')
    .values(
      times.map(time => ({
        quote_request_id: quoteRequestId,
        starts_at: time.toString(),
        made_at,
        ended_at: null,
      })),
    )
    .execute()
}
