import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { OF_PRICE } from '../outbox/kinds.ts'
import { dropUnsent } from '../outbox/outbox.ts'
import { findAcceptedQuote, findNewestQuote, isWithdrawn } from '../quotes/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/**
 * Takes a change to booked work back that waits for its answer, or was declined: the work goes on as it was accepted, and
 * the change can't be accepted any more. A repeat changes nothing.
 * @throws {Conflict} when the customer accepted it already, there is none, or a newer one came
 */
export async function withdrawChange(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  revision: number,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const { stage, number } = await lockQuoteRequest(trx, quoteRequestId)
    const quote = await findNewestQuote(trx, quoteRequestId)
    if (quote && quote.revision !== revision) throw new Conflict('quote.overtaken', { number })
    if (quote?.accepted_at) throw new Conflict('change.accepted', { number })
    const before = await findAcceptedQuote(trx, quoteRequestId)
    if (!quote || !before || stage !== 'booked') throw new Conflict('error.stage', { number })
    if (await isWithdrawn(trx, quote.id)) return
    await trx
      .insertInto('change_declined')
      .values({ quote_id: quote.id, declined_at: at.toString(), withdrawn_by: accountId })
      .onConflict(conflict => conflict.column('quote_id').doUpdateSet({ withdrawn_by: accountId }))
      .execute()
    await dropUnsent(trx, quoteRequestId, OF_PRICE, 'taken back')
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'change withdrawn', at, { revision: String(revision) })
    await mailHomeowner(trx, deps, 'change-withdrawn', quoteRequestId, at)
  })
}
