import type { Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest, moveTo, refusalAt } from '../requests/stage.ts'
import type { Closed } from './close-job.ts'
import { insertFigures } from './figures.ts'
import { keepLeftOver } from './left-over.ts'
import { findClosing, nextVersion } from './queries.ts'
import { bookRest } from './rest.ts'
import type { Went } from './went.ts'
import { keepWorkedDays } from './worked-days.ts'
import { insertClosing } from './write-closing.ts'

const OPEN_TO_IT = ['booked', 'part done', 'done']

/**
 * Says how a job went where it wasn't as planned, or says it anew while there is no bill: what it took, and what becomes of
 * the rest. All of it or nothing; the same form again, or another one from before, changes nothing and is given what stands.
 * @throws {DayGone} where the rest finds no room on its day
 * @throws {Conflict} when it isn't booked or begun, there is a bill, it was opened again since, or what was said to be left
 *   over before is used already
 */
export async function closeWith(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  version: number,
  went: Went,
): Promise<Closed> {
  return deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const quote = await findAcceptedQuote(trx, quoteRequestId)
    if (!quote || !OPEN_TO_IT.includes(request.stage)) throw refusalAt(request)
    const before = await findClosing(trx, quoteRequestId)
    if (version !== (await nextVersion(trx, quoteRequestId))) {
      if (before) return { isNew: false, closing: before }
      throw new Conflict('closing.changed')
    }
    const { outcome, firstDay: first_day, lastDay: last_day, trips, note } = went
    await settleDays(trx, { quoteRequestId, quoteId: quote.id }, went, at)
    const closingId = await insertClosing(trx, {
      quote_request_id: quoteRequestId,
      ...{ version, outcome, as_planned: false, first_day, last_day, trips, note },
      ...{ made_at: at.toString(), made_by: accountId },
    })
    await insertFigures(trx, closingId, quote.id, went)
    await keepLeftOver(trx, { quoteRequestId, version }, went.left, { at, by: accountId })
    const stage = outcome === 'part done' ? 'part done' : 'done'
    if (request.stage !== stage || stage === 'part done') await moveTo(trx, request, stage, at)
    const detail = { outcome, from: first_day, to: last_day, rest: went.rest?.day ?? '' }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'job told', at, detail)
    return { isNew: true, closing: (await findClosing(trx, quoteRequestId))! }
  })
}

async function settleDays(
  trx: Transaction<Database>,
  job: { quoteRequestId: number; quoteId: number },
  { rest, firstDay: first, lastDay: last }: Went,
  at: Temporal.Instant,
): Promise<void> {
  // One or the other: both would lock days out of their order.
  if (rest) await bookRest(trx, await requireBusiness(trx), { ...job, lastDay: last }, rest, at)
  else await keepWorkedDays(trx, job.quoteRequestId, { first, last }, at)
}
