import type { Transaction } from 'kysely'
import { findBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { dayOf } from '../lib/dates.ts'
import { OF_PRICE } from '../outbox/kinds.ts'
import { dropUnsent, putInOutbox } from '../outbox/outbox.ts'
import { findNewestQuote } from '../quotes/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { findPastQuotes } from './queries.ts'
import { NewerRevision } from './refusals.ts'

export const REASONS = ['price', 'later', 'myself', 'other'] as const

/** Why a quote is not taken: one of the reasons offered, and the homeowner's own words, or ''. */
export interface WhyNot {
  reason: (typeof REASONS)[number]
  words: string
}

/** The same as the form tells it, with the revision that was read; left out where that isn't known. */
export interface Declined extends WhyNot {
  revision?: number | undefined
}

/**
 * Notes that the homeowner doesn't take the quote; of a change to booked work, that it goes on as accepted. A repeat
 * changes nothing.
 * @throws {NewerRevision} when another revision came since they read it
 * @throws {Conflict} when it is accepted already, or the request is not at a stage that can be declined
 */
export async function declineQuote(
  deps: Deps,
  quoteRequestId: number,
  { revision, ...why }: Declined,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage === 'not taken') return
    const quote = await findNewestQuote(trx, quoteRequestId)
    if (revision !== undefined && quote?.revision !== revision) throw new NewerRevision()
    if (quote?.accepted_at) throw new Conflict('booking.accepted-already')
    if (quote && request.stage === 'booked') return declineChange(trx, deps, request.id, quote, why)
    await moveTo(trx, request, 'not taken', at)
    await recordHistory(trx, quoteRequestId, { kind: 'homeowner' }, 'not taken', at, { ...why })
    await putInOutbox(trx, deps.jobs, 'not-taken-staff', 'owner', quoteRequestId, at)
  })
}

async function declineChange(
  trx: Transaction<Database>,
  deps: Deps,
  id: number,
  quote: { id: number; revision: number },
  why: WhyNot,
): Promise<void> {
  const at = deps.now()
  const noted = await trx
    .insertInto('change_declined')
    .values({ quote_id: quote.id, declined_at: at.toString() })
    .onConflict(conflict => conflict.doNothing())
    .returning('quote_id')
    .executeTakeFirst()
  if (!noted) return
  const detail = { ...why, revision: String(quote.revision) }
  await recordHistory(trx, id, { kind: 'homeowner' }, 'change declined', at, detail)
  await putInOutbox(trx, deps.jobs, 'not-taken-staff', 'owner', id, at)
}

/**
 * Takes every quote off the list that held until before today, where the business is, and was not accepted;
 * for the worker, every night. Gives how many there were.
 */
export async function lapseQuotes(deps: Deps): Promise<number> {
  const business = await findBusiness(deps.db)
  if (!business) return 0
  const today = dayOf(deps.now(), business.time_zone)
  const lapsed = []
  for (const id of await findPastQuotes(deps.db, today)) {
    if (await lapseQuote(deps, id, today)) lapsed.push(id)
  }
  return lapsed.length
}

async function lapseQuote(deps: Deps, quoteRequestId: number, today: string): Promise<boolean> {
  return deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const quote = await findNewestQuote(trx, quoteRequestId)
    const lapses = request.stage === 'quoted' && quote && !quote.accepted_at && quote.holds_until < today
    if (!lapses) return false
    await moveTo(trx, request, 'lapsed', at)
    await dropUnsent(trx, quoteRequestId, OF_PRICE, 'expired')
    await recordHistory(trx, quoteRequestId, { kind: 'clock' }, 'lapsed', at)
    return true
  })
}
