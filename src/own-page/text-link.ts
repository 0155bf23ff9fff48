import type { Deps } from '../deps.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/** Whoever has the page may have it texted so often in a day; a text costs the business money. */
const MOST_A_DAY = 3

/** Texts the homeowner the link of the page, at the phone that is known; while one is on its way, nothing. */
export async function textLink(deps: Deps, id: number): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, id)
    const texted = await trx
      .selectFrom('outbox')
      .select(['sent_at', 'last_fault'])
      .where('quote_request_id', '=', id)
      .where('kind', '=', 'own-link')
      .where('made_at', '>', now.subtract({ hours: 24 }).toString())
      .execute()
    const isOnItsWay = texted.some(({ sent_at, last_fault }) => sent_at === null && last_fault === null)
    if (isOnItsWay || texted.length >= MOST_A_DAY) return
    await putInOutbox(trx, deps.jobs, 'own-link', 'homeowner', id, now, { way: 'text' })
  })
}
