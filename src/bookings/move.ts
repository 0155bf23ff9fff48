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
 * Moves a booked job to another first day, for the staff or for its homeowner, who hears of it either way; moved there
 * already, nothing changes. Both stores decide by locked days who gets the last room.
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
    const standing = await findBooking(trx, request.id)
    const quote = await findAcceptedQuote(trx, request.id)
    if (request.stage === 'week chosen') throw refusalAt(request)
    if (!standing || !quote || request.stage !== 'booked') throw new Conflict('moves.not-booked')
    if (standing.start === move.to) return
    if (standing.start !== move.from) throw new Conflict('moves.other-day')
    const byHomeowner = doer.kind === 'homeowner'
    if (byHomeowner && business.day_choice === 'ask') throw new Conflict('asked.no-move')
    if (byHomeowner && !mayStillMove(business, standing.first_day, at)) throw new Conflict('moves.too-late')
    const { day, part } = startOf(move.to)
    const makeupDays = byHomeowner ? 'left out' : 'counted'
    const [free] = await daysToMoveTo(trx, business, request.id, at, { from: day, count: 1, makeupDays })
    if (free?.day !== day || (part && !(business.half_days && free.parts.includes(part)))) throw new DayGone()
    const priced = change ? await keepNearChange(trx, request.id, change, move.to, doer, at) : quote
    if (!(await fitDays(trx, business, request.id, priced, at, move.to))) throw new DayGone()
    await clearUnsuited(trx, request.id)
    const days = { from: daysOf(standing), to: daysOf((await findBooking(trx, request.id))!) }
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
 * The first days to which a booked job can be moved, from `from` on: homeowners may begin no earlier than who books,
 * the staff from today. Nothing where it isn't booked.
 */
export async function daysToMoveTo(
  db: Deps['db'],
  business: Business,
  quoteRequestId: number,
  now: Temporal.Instant,
  { from, count, makeupDays }: { from?: string | undefined; count: number; makeupDays: MakeupDays },
): Promise<FreeDay[]> {
  const standing = await findBooking(db, quoteRequestId)
  const quote = await findAcceptedQuote(db, quoteRequestId)
  if (!standing || !quote) return []
  const usual = makeupDays === 'counted' ? dayOf(now, business.time_zone) : earliestDay(business, now)
  const earliest = afterWaiting(usual, business, quote, now)
  const fromDay = from && from > earliest ? from : earliest
  const rows = withoutShares(await findWorkDays(db, fromDay, now), standing.days)
  const range = { fromDay, lastDay: addDays(earliest, DAYS_AHEAD), count: count + 1 }
  const free = pickFreeDays(business, rows, quote.labor_hours, range, makeupDays)
  // Of the day that it begins on another half may be free.
  const isOther = ({ day, parts }: FreeDay) =>
    day !== standing.first_day || (business.half_days && parts.length > 0)
  return free.filter(isOther).slice(0, count)
}
