import { sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { Refusal } from '../http/errors.ts'

/** What whoever has a link may send by it within a day, all together: more than anybody needs, and few enough to be read. Common sense, no source. */
export const MOST_A_DAY = 20
/** The longest note with all that was added to it. */
export const LONGEST_NOTE = 20_000

const SENT = ['note added', 'question asked', 'phone changed', 'photos added', 'photo removed']

/** Enough was sent by the link of a request for today; or its note is as long as it may be. */
export class EnoughToday extends Refusal {
  constructor() {
    super(429, 'own.enough')
  }
}

/**
 * Refuses one more thing that a homeowner sends by a link, of a request that is locked.
 * @throws {EnoughToday} beyond so many within 24 hours
 */
export async function requireNotEnough(
  trx: Transaction<Database>,
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<void> {
  const { count } = await trx
    .selectFrom('history')
    .select(sql<number>`count(*)`.as('count'))
    .where('quote_request_id', '=', quoteRequestId)
    .where('by_kind', '=', 'homeowner')
    .where('verb', 'in', SENT)
    .where('at', '>', at.subtract({ hours: 24 }).toString())
    .executeTakeFirstOrThrow()
  if (Number(count) >= MOST_A_DAY) throw new EnoughToday()
}
