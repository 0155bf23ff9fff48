import type { Deps } from '../deps.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endVisitAhead } from '../visits/queries.ts'

/**
 * Takes a request off the list because the contractor can't do it; a visit ahead is called off. A repeat changes
 * nothing.
 * @throws {Conflict} when there is a quote already, or the request has ended
 */
export async function cannotDo(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  reason: string,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage === "can't do") return
    await moveTo(trx, request, "can't do", now)
    await endVisitAhead(trx, quoteRequestId, 'called_off_at', now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, "can't do", now, { reason })
  })
}
