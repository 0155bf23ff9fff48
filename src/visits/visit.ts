import { isDeepStrictEqual } from 'node:util'
import type { Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { lockWorkDays } from '../days/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { Told } from '../estimate/job/bed.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { Conflict } from '../http/errors.ts'
import { dayOf } from '../lib/dates.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { keepMeasuredBeds } from '../places/beds.ts'
import { keepStops } from '../places/stops.ts'
import { requireIdInForce, requireRateTable } from '../rates/queries.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { type LockedRequest, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { clearUnsuited } from '../requests/unsuited.ts'
import { endOffers, lockVisits } from './offered-times.ts'
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
 * Sets the site visit, or moves the one that is set, for the staff; the homeowner hears of it by mail. The same time
 * again changes nothing. Whether it overlaps another one is theirs to know: see `findClash`.
 * @throws {Conflict} when the request is past its visit, or ended
 */
export async function setVisit(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  startsAt: Temporal.Instant,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, quoteRequestId)
    await lockVisits(trx)
    await arrange(trx, deps, request, startsAt, { kind: 'staff', accountId })
  })
}

/** Sets or moves the visit of a locked request, with all visits locked; false where it is set for that time already. */
export async function arrange(
  trx: Transaction<Database>,
  deps: Deps,
  request: LockedRequest,
  startsAt: Temporal.Instant,
  doer: Doer,
): Promise<boolean> {
  const now = deps.now()
  const { id } = request
  const business = await requireBusiness(trx)
  const ahead = await findVisitAhead(trx, id)
  const moved = request.stage === 'visit set' && ahead !== undefined
  if (moved && Temporal.Instant.compare(ahead.starts_at, startsAt) === 0) return false
  // Both take room, or give it back: every transaction locks days in the order of their dates.
  const days = [startsAt, ...(moved ? [Temporal.Instant.from(ahead.starts_at)] : [])]
  await lockWorkDays(
    trx,
    days.map(at => dayOf(at, business.time_zone)),
  )
  if (moved) await endVisitAhead(trx, id, 'called_off_at', now)
  else await moveTo(trx, request, 'visit set', now)
  await insertVisit(trx, id, { startsAt, minutes: business.visit_minutes }, now)
  await endOffers(trx, id, now)
  await clearUnsuited(trx, id)
  await updateVisitLeftOut(trx, id, false)
  await recordHistory(trx, id, doer, moved ? 'visit moved' : 'visit set', now, { at: startsAt.toString() })
  await mailHomeowner(trx, deps, 'visit-set', id, now)
  return true
}

/**
 * Calls the visit off, for the staff or its homeowner, so that the request waits for a call again; a repeat changes
 * nothing.
 * @throws {Conflict} when the request is past its visit, or ended
 */
export async function callOffVisit(
  deps: Deps,
  by: number | 'homeowner',
  quoteRequestId: number,
): Promise<void> {
  const doer: Doer = by === 'homeowner' ? { kind: by } : { kind: 'staff', accountId: by }
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage === 'new') return
    if (request.stage !== 'visit set') throw new Conflict('error.stage', { number: request.number })
    await moveTo(trx, request, 'new', now)
    await endVisitAhead(trx, quoteRequestId, 'called_off_at', now)
    await recordHistory(trx, quoteRequestId, doer, 'visit called off', now)
    await mailHomeowner(trx, deps, 'visit-off', quoteRequestId, now)
    if (by === 'homeowner') await putInOutbox(trx, deps.jobs, 'visit-staff', 'owner', quoteRequestId, now)
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
