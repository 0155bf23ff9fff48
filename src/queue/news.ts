import type { Deps } from '../deps.ts'
import { HOMEOWNERS_NEWS } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/**
 * Marks what a homeowner did as seen, up to the entry of the history that was shown: what came after it stands out
 * still. A repeat changes nothing.
 */
export async function markSeen(deps: Deps, quoteRequestId: number, upTo: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    await trx
      .updateTable('quote_request')
      .set(eb => ({
        news_from: eb
          .selectFrom('history')
          .select(eb => eb.fn.min('history.id').as('next'))
          .where('quote_request_id', '=', quoteRequestId)
          .where('history.id', '>', upTo)
          .where('by_kind', '=', 'homeowner')
          .where('verb', 'in', HOMEOWNERS_NEWS),
      }))
      .where('id', '=', quoteRequestId)
      .where('news_from', '<=', upTo)
      .execute()
  })
}
