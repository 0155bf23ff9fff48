import type { Kysely } from 'kysely'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { markUnsuited } from '../requests/unsuited.ts'
import { freeTimes, isFreeTime, overlapping } from './free-times.ts'
import { visitRules } from './full-days.ts'
import { endOffers, findOffers, findVisitsTaken, insertOffers, lockVisits } from './offered-times.ts'
import { findVisitAhead } from './queries.ts'
import { arrange, lockDaysOf } from './visit.ts'

const HOMEOWNER = { kind: 'homeowner' } as const
const TIMES_SHOWN = 9

/** The time that was picked is not free any more. */
export class TimeGone extends Conflict {
  constructor() {
    super('visits.gone')
  }
}

/** The first moment at which a homeowner may have a visit: tomorrow, where the business is. */
function earliestVisit({ time_zone }: Pick<Business, 'time_zone'>, now: Temporal.Instant): Temporal.Instant {
  return Temporal.PlainDate.from(addDays(dayOf(now, time_zone), 1))
    .toZonedDateTime(time_zone)
    .toInstant()
}

/** Whether a homeowner may still move a visit: until the day before. */
export function mayMoveVisit(
  business: Pick<Business, 'time_zone'>,
  startsAt: string,
  now: Temporal.Instant,
): boolean {
  return dayOf(Temporal.Instant.from(startsAt), business.time_zone) > dayOf(now, business.time_zone)
}

/**
 * Offers a homeowner two or three times to pick from; those offered before end. The same again changes nothing.
 * @throws {Conflict} when a visit is set, or the request is past that
 */
export async function offerTimes(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  times: Temporal.Instant[],
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage !== 'new') throw new Conflict('error.stage', { number: request.number })
    const standing = await findOffers(trx, request.id, now)
    const sorted = [...times].sort(Temporal.Instant.compare)
    if (standing.join() === sorted.join()) return
    await endOffers(trx, request.id, now)
    await insertOffers(trx, request.id, sorted, now)
    const detail = { times: sorted.join(' ') }
    await recordHistory(trx, request.id, { kind: 'staff', accountId }, 'times offered', now, detail)
    await mailHomeowner(trx, deps, 'visit-times', request.id, now)
  })
}

/** The times that a homeowner can pick: of those offered what is free still; else, to move a visit that is set, free ones. */
export async function timesToPick(
  db: Kysely<Database>,
  business: Business,
  request: { id: number; stage: string; preferred_times: string },
  now: Temporal.Instant,
): Promise<Temporal.Instant[]> {
  const taken = await findVisitsTaken(db, now, request.id)
  if (request.stage === 'new') {
    const offered = await findOffers(db, request.id, now)
    return offered.filter(time => !overlapping(taken, time, business.visit_minutes))
  }
  const ahead = await findVisitAhead(db, request.id)
  if (!ahead || !mayMoveVisit(business, ahead.starts_at, now)) return []
  const asked = { count: TIMES_SHOWN, preferred: request.preferred_times }
  const rules = await visitRules(db, business, now, { own: ahead })
  const free = freeTimes(rules, taken, earliestVisit(business, now), asked)
  return free
    .filter(time => !time.equals(Temporal.Instant.from(ahead.starts_at)))
    .sort(Temporal.Instant.compare)
}

/**
 * Sets the visit at the time that the homeowner picked, or moves it there; picked already, nothing changes. `seen` is the
 * visit that was shown, 0 for none. Of two who pick the same time at once one is told that it is gone.
 * @throws {TimeGone} when it isn't free, or wasn't to be picked
 * @throws {Conflict} when another visit is set than was shown, or it is too late to move it
 */
export async function pickTime(
  deps: Deps,
  quoteRequestId: number,
  { seen, startsAt }: { seen: number; startsAt: Temporal.Instant },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    await lockVisits(trx)
    const business = await requireBusiness(trx)
    const ahead = await findVisitAhead(trx, request.id)
    if (ahead && Temporal.Instant.from(ahead.starts_at).equals(startsAt)) return
    if ((ahead?.id ?? 0) !== seen) throw new Conflict('visits.changed')
    const taken = await findVisitsTaken(trx, now, request.id)
    if (request.stage === 'new') {
      const offered = await findOffers(trx, request.id, now)
      const stands = offered.some(time => time.equals(startsAt))
      if (!stands || overlapping(taken, startsAt, business.visit_minutes)) throw new TimeGone()
    } else {
      if (request.stage !== 'visit set' || !ahead) throw new Conflict('visits.none')
      if (!mayMoveVisit(business, ahead.starts_at, now)) throw new Conflict('visits.too-late')
      // Room that work takes meanwhile is seen, or waits for this.
      await lockDaysOf(trx, business, [startsAt, Temporal.Instant.from(ahead.starts_at)])
      const isSoonest = Temporal.Instant.compare(startsAt, earliestVisit(business, now)) < 0
      const rules = await visitRules(trx, business, now, { own: ahead })
      if (isSoonest || !isFreeTime(rules, taken, startsAt)) throw new TimeGone()
    }
    await arrange(trx, deps, request, startsAt, HOMEOWNER)
    await putInOutbox(trx, deps.jobs, 'visit-staff', 'owner', request.id, now)
  })
}

/**
 * The homeowner says that no time suits, neither the one that is set nor those offered: then it is a call. A repeat
 * changes nothing.
 * @throws {Conflict} when another visit is set than was shown, or there is nothing to pick
 */
export async function sayTimeUnsuited(
  deps: Deps,
  quoteRequestId: number,
  { seen, words }: { seen: number; words: string },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const ahead = await findVisitAhead(trx, request.id)
    if ((ahead?.id ?? 0) !== seen) throw new Conflict('visits.changed')
    if (request.stage === 'new') {
      if (!(await endOffers(trx, request.id, now))) return
    } else {
      if (!ahead || request.stage !== 'visit set') throw new Conflict('visits.none')
      if (!(await markUnsuited(trx, request.id, now))) return
    }
    await recordHistory(trx, request.id, HOMEOWNER, 'time unsuited', now, { words })
    await putInOutbox(trx, deps.jobs, 'unsuited-staff', 'owner', request.id, now)
  })
}
