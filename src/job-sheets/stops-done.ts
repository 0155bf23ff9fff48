import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/** The stops of a job, counted from 0, that are checked off. */
export async function findStopsDone(db: Kysely<Database>, quoteRequestId: number): Promise<Set<number>> {
  const rows = await db
    .selectFrom('job_stop_done')
    .select('stop')
    .where('quote_request_id', '=', quoteRequestId)
    .execute()
  return new Set(rows.map(({ stop }) => stop))
}

/**
 * Checks a stop off, or takes that back; a repeat changes nothing.
 * @throws {NotFound} where the job has no such stop
 * @throws {Conflict} when the job isn't booked or begun
 */
export async function checkStop(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { stop, isDone }: { stop: number; isDone: boolean },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const { stage, number } = await lockQuoteRequest(trx, quoteRequestId)
    if (stage !== 'booked' && stage !== 'part done') throw new Conflict('error.stage', { number })
    const quote = await findAcceptedQuote(trx, quoteRequestId)
    if (!quote?.job.stops?.[stop]) throw new NotFound()
    const row = { quote_request_id: quoteRequestId, stop, done_at: deps.now().toString(), done_by: accountId }
    if (isDone)
      await trx
        .insertInto('job_stop_done')
        .values(row)
        .onConflict(conflict => conflict.doNothing())
        .execute()
    else
      await trx
        .deleteFrom('job_stop_done')
        .where('quote_request_id', '=', quoteRequestId)
        .where('stop', '=', stop)
        .execute()
  })
}
