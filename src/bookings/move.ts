import type { Business } from '../business/queries.ts'
import { requireBusiness } from '../business/queries.ts'
import { findWorkDays } from '../days/queries.ts'
import {
  DAYS_AHEAD,
  earliestDay,
  type FreeDay,
  type MakeupDays,
  pickFreeDays,
  withoutShares,
} from '../days/room.ts'
import { startOf } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import type { Language } from '../language/language.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { afterWaiting } from '../quotes/conditions.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest, refusalAt } from '../requests/stage.ts'
import { clearUnsuited } from '../requests/unsuited.ts'
import { endPastHolds } from './day-asked.ts'
import { fitDays } from './fit-days.ts'
import { findNearChangeOfAccepted, keepNearChange, refuseWorse } from './near-price.ts'
import { findBooking } from './queries.ts'
import { DayGone } from './refusals.ts'
import { findWorkAhead } from './work-ahead.ts'

/**
 * From which start to which (see startText); the one that was shown tells whether somebody else was faster. Of a homeowner
 * also in which language they read the price, and the days beside which another one was shown (see nearSeen).
 */
export interface Move {
  from: string
  to: string
  language?: Language
  prices?: string
}

/** The last day on which a homeowner can move work that begins on a day, where the business is. */
export function mayMoveUntil(business: Pick<Business, 'move_until_days'>, firstDay: string): string {
  return addDays(firstDay, -business.move_until_days)
}

/** Whether the homeowner can still move work that begins on a day. */
export function mayStillMove(business: Business, firstDay: string, now: Temporal.Instant): boolean {
  return dayOf(now, business.time_zone) <= mayMoveUntil(business, firstDay)
}

/**
 * Moves a booked job to another first day, for the staff or for its homeowner, who hears of it either way; of what is part done
 * the staff move the rest. Moved there already, nothing changes. Both stores decide by locked days who gets the last room.
 * @throws {DayGone} when there is no room there, or no job can begin on that day
 * @throws {Conflict} when it begins on another day than was shown, or is no longer booked, or when it is too late for the homeowner, or days are asked for
 */
export async function moveWork(deps: Deps, quoteRequestId: number, move: Move, doer: Doer): Promise<void> {
  await endPastHolds(deps)
  const change = doer.kind === 'homeowner' ? await changeOf(deps, quoteRequestId, move) : undefined
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const business = await requireBusiness(trx)
    if (request.stage === 'week chosen') throw refusalAt(request)
    const work = await findWorkAhead(trx, request.id)
    const byHomeowner = doer.kind === 'homeowner'
    if (!work || (byHomeowner && work.worked.length > 0)) throw new Conflict('moves.not-booked')
    if (work.start === move.to) return
    if (work.start !== move.from) throw new Conflict('moves.other-day')
    if (byHomeowner && business.day_choice === 'ask') throw new Conflict('asked.no-move')
    if (byHomeowner && !mayStillMove(business, work.ahead[0]!.day, at)) throw new Conflict('moves.too-late')
    const { day, part } = startOf(move.to)
    const makeupDays = byHomeowner ? 'left out' : 'counted'
    const [free] = await daysToMoveTo(trx, business, request.id, at, { from: day, count: 1, makeupDays })
    if (free?.day !== day || (part && !(business.half_days && free.parts.includes(part)))) throw new DayGone()
    const priced = change && (await keepNearChange(trx, request.id, change, move.to, doer, at))
    const quote = { id: priced?.id ?? work.quoteId, labor_hours: work.hours }
    const before = await findBooking(trx, request.id)
    const { worked } = work
    if (!(await fitDays(trx, business, request.id, quote, at, { newStart: move.to, worked })))
      throw new DayGone()
    await clearUnsuited(trx, request.id)
    const days = { from: daysOf(before!), to: daysOf((await findBooking(trx, request.id))!) }
    await recordHistory(trx, request.id, doer, 'work moved', at, { ...days, ...(part && { half: part }) })
    await mailHomeowner(trx, deps, 'day-moved', request.id, at)
    if (byHomeowner) await putInOutbox(trx, deps.jobs, 'day-moved-staff', 'owner', request.id, at)
  })
}

// Who moves work by themselves has the price of the day that they choose; what others move keeps its own.
async function changeOf(deps: Deps, id: number, { from, to, language = 'en', prices }: Move) {
  // Moved already, it has its price.
  if ((await findBooking(deps.db, id))?.start !== from) return undefined
  const change = await findNearChangeOfAccepted(deps, id, to, language)
  if (prices !== undefined) refuseWorse(prices, to, change)
  return change
}

/** Every day of a booking, as the history keeps them. */
export function daysOf({ days }: { days: { day: string }[] }): string {
  return days.map(({ day }) => day).join(' ')
}

/**
 * The first days to which a booked job, or the rest of one, can be moved, from `from` on: homeowners may begin no earlier than who books,
 * the staff from today. Nothing where it isn't booked.
 */
export async function daysToMoveTo(
  db: Deps['db'],
  business: Business,
  quoteRequestId: number,
  now: Temporal.Instant,
  { from, count, makeupDays }: { from?: string | undefined; count: number; makeupDays: MakeupDays },
): Promise<FreeDay[]> {
  const work = await findWorkAhead(db, quoteRequestId)
  const quote = await findAcceptedQuote(db, quoteRequestId)
  if (!work || !quote) return []
  const usual = makeupDays === 'counted' ? dayOf(now, business.time_zone) : earliestDay(business, now)
  const earliest = afterWaiting(usual, business, quote, now)
  const worked = work.worked.at(-1)?.day
  const soonest = worked && worked >= earliest ? addDays(worked, 1) : earliest
  const fromDay = from && from > soonest ? from : soonest
  const rows = withoutShares(await findWorkDays(db, fromDay, now), work.ahead)
  const range = { fromDay, lastDay: addDays(earliest, DAYS_AHEAD), count: count + 1 }
  const free = pickFreeDays(business, rows, work.hours, range, makeupDays)
  // Of the day that it begins on another half may be free.
  const isOther = ({ day, parts }: FreeDay) =>
    day !== work.ahead[0]!.day || (business.half_days && parts.length > 0)
  return free.filter(isOther).slice(0, count)
}
