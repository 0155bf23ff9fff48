import type { Deps } from '../deps.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { requireNotEnough } from '../requests/enough-today.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/**
 * Takes a question about the price, and tells the owner; the same words again, as by a second press, change nothing.
 * @throws {EnoughToday} when so much was sent by links of the request today
 */
export async function askQuestion(deps: Deps, quoteRequestId: number, question: string): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const last = await trx
      .selectFrom('history')
      .select('detail')
      .where('quote_request_id', '=', quoteRequestId)
      .where('verb', '=', 'question asked')
      .orderBy('id', 'desc')
      .limit(1)
      .executeTakeFirst()
    if (last?.detail.question === question) return
    await requireNotEnough(trx, quoteRequestId, now)
    await recordHistory(trx, quoteRequestId, { kind: 'homeowner' }, 'question asked', now, { question })
    await putInOutbox(trx, deps.jobs, 'question-staff', 'owner', quoteRequestId, now)
  })
}
