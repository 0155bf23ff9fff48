import type { Deps } from '../deps.ts'
import { findNewestQuote } from '../quotes/queries.ts'

/** Notes that somebody who has the booking link read the newest quote; the first time counts. */
export async function noteSeen(deps: Deps, quoteRequestId: number): Promise<void> {
  const quote = await findNewestQuote(deps.db, quoteRequestId)
  if (!quote) return
  await deps.db
    .insertInto('quote_seen')
    .values({ quote_id: quote.id, seen_at: deps.now().toString() })
    .onConflict(conflict => conflict.doNothing())
    .execute()
}
