import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/**
 * Notes that somebody of the staff sent the booking link by hand, with this revision; a repeat changes nothing.
 * @throws {Conflict} when there is no such quote
 */
export async function noteSent(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  revision: number,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { number } = await lockQuoteRequest(trx, quoteRequestId)
    const quote = await trx
      .selectFrom('quote')
      .select('id')
      .where('quote_request_id', '=', quoteRequestId)
      .where('revision', '=', revision)
      .executeTakeFirst()
    if (!quote) throw new Conflict('quote.none', { number })
    const noted = await trx
      .insertInto('quote_sent')
      .values({ quote_id: quote.id, sent_at: now.toString(), sent_by: accountId })
      .onConflict(conflict => conflict.doNothing())
      .returning('quote_id')
      .executeTakeFirst()
    if (!noted) return
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'link sent', now, { revision: String(revision) })
  })
}
