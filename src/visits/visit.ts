import { isDeepStrictEqual } from 'node:util'
import type { Transaction } from 'kysely'
import { type Business, requireBusiness } from '../business/queries.ts'
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
import { Clash, findClash } from './clash.ts'
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

/** What the staff saw as they set a visit. */
export interface VisitSeen {
  /** The visit that was set, 0 for none; left out where nobody looked. */
  seen?: number | undefined
  /** Whether it is set although something is in the way. */
  anyway: boolean
}

/**
 * Sets the site visit, or moves the one that is set, for the staff; the homeowner hears of it by mail. The same time
 * again changes nothing.
 * @throws {Clash} when something is in the way that they may not know of
 * @throws {Conflict} when another visit is set than was shown, or the request is past its visit, or ended
 */
export async function setVisit(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  startsAt: Temporal.Instant,
  { seen, anyway }: VisitSeen = { anyway: true },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, quoteRequestId)
    await lockVisits(trx)
    const ahead = await findVisitAhead(trx, quoteRequestId)
    if (ahead && Temporal.Instant.compare(ahead.starts_at, startsAt) === 0) return
    if (seen !== undefined && (ahead?.id ?? 0) !== seen) throw new Conflict('visits.changed')
    if (!anyway) {
      const days = ahead ? [startsAt, Temporal.Instant.from(ahead.starts_at)] : [startsAt]
      await lockDaysOf(trx, await requireBusiness(trx), days)
      const clash = await findClash(trx, quoteRequestId, startsAt, deps.now())
      if (clash) throw new Clash(clash)
    }
    await arrange(trx, deps, request, startsAt, { kind: 'staff', accountId })
  })
}

/** Locks the days of moments, in the order of their dates as every transaction does. */
export async function lockDaysOf(
  trx: Transaction<Database>,
  { time_zone }: Pick<Business, 'time_zone'>,
  moments: Temporal.Instant[],
): Promise<void> {
  await lockWorkDays(
    trx,
    moments.map(at => dayOf(at, time_zone)),
  )
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
  await lockDaysOf(trx, business, [startsAt, ...(moved ? [Temporal.Instant.from(ahead.starts_at)] : [])])
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
 * nothing. `seen` is the visit that was shown, left out where any is meant.
 * @throws {Conflict} when another visit is set than was shown, or the request is past its visit, or ended
 */
export async function callOffVisit(
  deps: Deps,
  by: number | 'homeowner',
  quoteRequestId: number,
  seen?: number,
): Promise<void> {
  const doer: Doer = by === 'homeowner' ? { kind: by } : { kind: 'staff', accountId: by }
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage === 'new') return
    if (request.stage !== 'visit set') throw new Conflict('error.stage', { number: request.number })
    const ahead = await findVisitAhead(trx, quoteRequestId)
    if (seen !== undefined && ahead?.id !== seen) throw new Conflict('visits.changed')
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
