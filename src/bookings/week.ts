import type { Kysely, Transaction } from 'kysely'
import { type Business, requireBusiness } from '../business/queries.ts'
import { findWorkDays, lockWorkDays } from '../days/queries.ts'
import { type FreeDay, pickFreeDays, type Share, withoutShares } from '../days/room.ts'
import { daysInWeek, mondayIn, pickFreeWeeks, sayDayBy, sundayOf } from '../days/week.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { afterWaiting, earliestWork } from '../quotes/conditions.ts'
import { findAcceptedQuote, type QuoteWithLines } from '../quotes/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endPastHolds } from './day-asked.ts'
import { fitDays } from './fit-days.ts'
import { findBooking, insertBooking } from './queries.ts'
import { DayGone } from './refusals.ts'

type Waiting = Parameters<typeof earliestWork>[1]

/** The first day of which a week that homeowners choose may consist: far enough ahead to be told its day in time. */
export function earliestInWeek(business: Business, quote: Waiting, now: Temporal.Instant): string {
  const earliest = earliestWork(business, quote, now)
  const inTime = addDays(dayOf(now, business.time_zone), business.say_day_before)
  return [inTime, earliest].sort()[1]!
}

/**
 * Pencils a job of a locked request in on days of a week that have room for it; its stage must be changed before. Others
 * can't have that room, so a day of the week is left for it, whichever is said in the end.
 * @throws {DayGone} when there is no room in that week
 */
export async function bookWeek(
  trx: Transaction<Database>,
  business: Business,
  request: { id: number },
  quote: QuoteWithLines,
  monday: string,
  at: Temporal.Instant,
): Promise<Share[]> {
  const worked = Array.from({ length: 7 }, (_, index) => addDays(monday, index)).filter(day =>
    business.working_days.includes(weekdayOf(day)),
  )
  await lockWorkDays(trx, worked)
  const rows = await findWorkDays(trx, monday, at)
  const range = { fromDay: monday, lastDay: monday, count: 1 }
  const [week] = pickFreeWeeks(business, rows, quote.labor_hours, range)
  if (!week) throw new DayGone('week.full-kept')
  const days = week.pencil.shares
  const sayBy = sayDayBy(business, monday)
  await insertBooking(trx, { quoteRequestId: request.id, quoteId: quote.id, days, sayBy }, at)
  return days
}

/** Which day is said of which week (see weekText), as it was shown. */
export interface DaySaid {
  week: string
  day: string
}

/**
 * Says the day of a week that a homeowner chose, who is told; said already, nothing changes.
 * @throws {Conflict} when it waits for no day, or another week than was shown
 * @throws {DayGone} when that day has no room, or is none of the days that may be said
 */
export async function sayDay(
  deps: Deps,
  accountId: number,
  id: number,
  { week, day }: DaySaid,
): Promise<void> {
  await endPastHolds(deps)
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, id)
    const standing = await findBooking(trx, id)
    if (request.stage === 'booked' && standing?.start === day) return
    if (request.stage !== 'week chosen' || standing?.start !== week)
      throw new Conflict('error.stage', { number: request.number })
    const business = await requireBusiness(trx)
    const quote = await findAcceptedQuote(trx, id)
    const may = await daysToSay(trx, business, id, at)
    if (!quote || !may.some(free => free.day === day)) throw new DayGone()
    await moveTo(trx, request, 'booked', at)
    if (!(await fitDays(trx, business, id, quote, at, { newStart: day }))) throw new DayGone()
    await recordHistory(trx, id, { kind: 'staff', accountId }, 'day booked', at, { day })
    await mailHomeowner(trx, deps, 'day-booked', id, at)
  })
}

/**
 * The days that may be said of a week that a homeowner chose, from today on: those of the week that have room for all of
 * the job, else, as when the week is over, the next days that have. None where no week waits for its day.
 */
export async function daysToSay(
  db: Kysely<Database>,
  business: Business,
  id: number,
  now: Temporal.Instant,
): Promise<FreeDay[]> {
  const standing = await findBooking(db, id)
  const quote = await findAcceptedQuote(db, id)
  const monday = standing && mondayIn(standing.start)
  if (!standing || !quote || !monday) return []
  const earliest = afterWaiting(dayOf(now, business.time_zone), business, quote, now)
  const fromDay = [monday, earliest].sort()[1]!
  const rows = withoutShares(await findWorkDays(db, fromDay, now), standing.days)
  const inWeek = fromDay <= sundayOf(monday) ? daysInWeek(business, rows, quote.labor_hours, fromDay) : []
  if (inWeek.length > 0) return inWeek
  const range = { fromDay, lastDay: addDays(fromDay, 60), count: 7 }
  return pickFreeDays(business, rows, quote.labor_hours, range)
}
