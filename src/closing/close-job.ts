import type { Transaction } from 'kysely'
import { findBooking } from '../bookings/queries.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { dayOf } from '../lib/dates.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest, moveTo, refusalAt } from '../requests/stage.ts'
import { keepFigures } from './figures.ts'
import { type Closing, findClosing, nextVersion } from './queries.ts'
import { insertClosing } from './write-closing.ts'

/** A job as it stands closed; `isNew` says whether it was this very call that closed it. */
export interface Closed {
  isNew: boolean
  closing: Closing
}

/**
 * Closes a booked or begun job as it was planned: on its booked days, with everything that was agreed. `version` is the
 * one that the form was to become. Twice, by a double tap or from two phones, it is closed once, and whoever comes second
 * is given what the first said.
 * @throws {Conflict} before its day has come, when it isn't booked, or when the page is from before it was opened again
 */
export async function closeJob(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  version: number,
): Promise<Closed> {
  return deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const before = await findClosing(trx, quoteRequestId)
    if (before && request.stage !== 'part done') return { isNew: false, closing: before }
    if (request.stage !== 'booked' && request.stage !== 'part done') throw refusalAt(request)
    if (version !== (await nextVersion(trx, quoteRequestId))) throw new Conflict('closing.changed')
    const { first, last } = await plannedDays(trx, quoteRequestId, before, at)
    const closingId = await insertClosing(trx, {
      quote_request_id: quoteRequestId,
      ...{ version, outcome: 'done', as_planned: true, first_day: first, last_day: last },
      ...{ trips: null, note: '', made_at: at.toString(), made_by: accountId },
    })
    if (before) await keepFigures(trx, before.id, closingId)
    await moveTo(trx, request, 'done', at)
    const detail = { from: first, to: last }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'job closed', at, detail)
    return { isNew: true, closing: (await findClosing(trx, quoteRequestId))! }
  })
}

/** The days that were worked if all went as booked; of what was begun before, from its first day on. */
async function plannedDays(
  trx: Transaction<Database>,
  quoteRequestId: number,
  before: Closing | undefined,
  at: Temporal.Instant,
): Promise<{ first: string; last: string }> {
  const { time_zone } = await requireBusiness(trx)
  const booked = (await findBooking(trx, quoteRequestId))?.days.map(({ day }) => day) ?? []
  const [first, last] = [booked[0], booked.at(-1)]
  if (first === undefined || last === undefined) throw new Conflict('closing.no-day')
  if (last > dayOf(at, time_zone)) throw new Conflict('closing.not-yet')
  if (!before) return { first, last }
  return { first: before.first_day, last: [last, before.last_day].sort()[1]! }
}
