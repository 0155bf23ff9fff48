import { fitDays } from '../bookings/fit-days.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { takeLeftOverBack } from './left-over.ts'
import { nextVersion } from './queries.ts'
import { insertClosing } from './write-closing.ts'

export type UsedAlready = Awaited<ReturnType<typeof takeLeftOverBack>>[number]

/**
 * Opens a job again that was closed by mistake: it is booked as before, with what was given back of its days as far as
 * they have room still, and what it left over is off on hand again. `version` is the one that the form was to become; a repeat
 * changes nothing. Gives what of the leftovers was used already: that much stays off, whatever is said of the job next.
 * @throws {Conflict} when it isn't closed, there is a bill, or the page is from before another change
 */
export async function reopenJob(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  version: number,
): Promise<UsedAlready[]> {
  return deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const next = await nextVersion(trx, quoteRequestId)
    if (request.stage === 'booked' && version === next - 1) return []
    if (request.stage !== 'done' && request.stage !== 'part done')
      throw new Conflict('error.stage', { number: request.number })
    if (version !== next) throw new Conflict('closing.changed')
    await insertClosing(trx, {
      quote_request_id: quoteRequestId,
      ...{ version, outcome: 'reopened', as_planned: false, first_day: null, last_day: null },
      ...{ trips: null, note: '', made_at: at.toString(), made_by: accountId },
    })
    const doer = { kind: 'staff', accountId } as const
    await moveTo(trx, request, 'booked', at)
    await recordHistory(trx, quoteRequestId, doer, 'job reopened', at)
    const quote = await findAcceptedQuote(trx, quoteRequestId)
    if (quote && !(await fitDays(trx, await requireBusiness(trx), quoteRequestId, quote, at)))
      await recordHistory(trx, quoteRequestId, doer, 'day too full', at, { hours: quote.labor_hours })
    return takeLeftOverBack(trx, { quoteRequestId, version }, { at, by: accountId })
  })
}
