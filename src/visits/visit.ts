import { isDeepStrictEqual } from 'node:util'
import type { Deps } from '../deps.ts'
import type { Told } from '../estimate/job/bed.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { Conflict } from '../http/errors.ts'
import { keepMeasuredBeds } from '../places/beds.ts'
import { keepStops } from '../places/stops.ts'
import { requireIdInForce, requireRateTable } from '../rates/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import {
  endVisitAhead,
  findVisitAhead,
  insertVisit,
  requireVisited,
  updateMeasured,
  updateVisitLeftOut,
} from './queries.ts'
import { readMeasured } from './read-measured.ts'

/**
 * Sets the site visit, or moves the one that is set; the homeowner hears of it by mail. The same time again changes
 * nothing.
 * @throws {Conflict} when the request is past its visit, or ended
 */
export async function setVisit(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  startsAt: Temporal.Instant,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const ahead = await findVisitAhead(trx, quoteRequestId)
    const moved = request.stage === 'visit set' && ahead !== undefined
    if (moved && Temporal.Instant.compare(ahead.starts_at, startsAt) === 0) return
    if (moved) await endVisitAhead(trx, quoteRequestId, 'called_off_at', now)
    else await moveTo(trx, request, 'visit set', now)
    await insertVisit(trx, quoteRequestId, startsAt, now)
    await updateVisitLeftOut(trx, quoteRequestId, false)
    await recordHistory(
      trx,
      quoteRequestId,
      { kind: 'staff', accountId },
      moved ? 'visit moved' : 'visit set',
      now,
      { at: startsAt.toString() },
    )
    await mailHomeowner(trx, deps, 'visit-set', quoteRequestId, now)
  })
}

/**
 * Calls the visit off, so that the request waits for a call again; a repeat changes nothing.
 * @throws {Conflict} when the request is past its visit, or ended
 */
export async function callOffVisit(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage === 'new') return
    if (request.stage !== 'visit set') throw new Conflict('error.stage', { number: request.number })
    await moveTo(trx, request, 'new', now)
    await endVisitAhead(trx, quoteRequestId, 'called_off_at', now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'visit called off', now)
    await mailHomeowner(trx, deps, 'visit-off', quoteRequestId, now)
  })
}

/**
 * Leaves the visit out: the beds are priced as told. A repeat changes nothing.
 * @throws {Conflict} when a visit is set, or the request is past that; or when no beds were told
 */
export async function leaveVisitOut(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage !== 'new') throw new Conflict('error.stage', { number: request.number })
    const { visit_left_out, told } = await requireVisited(trx, quoteRequestId)
    if (told.beds.length === 0) throw new Conflict('requests.no-beds', { number: request.number })
    if (visit_left_out) return
    await updateVisitLeftOut(trx, quoteRequestId, true)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'visit left out', deps.now())
  })
}

/**
 * Keeps what was measured, and what is understood of it at the rates in force; may be done again until there is a quote.
 * The very same again changes nothing.
 * @throws {Conflict} when no visit is set, or the request is past that; or when the beds can't be read
 */
export async function keepMeasurements(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  sheet: Told,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const again = request.stage === 'measured'
    const before = await requireVisited(trx, quoteRequestId)
    const measured = await keepStops(trx, before.place_id, sheet, now)
    if (again && isDeepStrictEqual(before.measured, measured)) return
    if (!again) await moveTo(trx, request, 'measured', now)
    const { body: table } = await requireRateTable(trx, await requireIdInForce(trx, now))
    const reading = readMeasured(measured, before, table)
    if (!reading.ok) throw new Conflict('quote.unreadable', { number: request.number })
    await endVisitAhead(trx, quoteRequestId, 'done_at', now)
    const understood = recordJob(reading.job, table.units)
    await updateMeasured(trx, quoteRequestId, measured, understood)
    const beds = { requestId: quoteRequestId, placeId: before.place_id, told: measured, understood }
    await keepMeasuredBeds(trx, beds, now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'measured', now, {
      beds: String(measured.beds.length),
    })
  })
}
