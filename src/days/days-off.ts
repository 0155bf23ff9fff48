import { type Kysely, sql, type Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { isCheckViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { datesOf, daysOff, type Holiday, holidaysOf } from './holidays.ts'
import { lockWorkDays } from './queries.ts'
import { DAYS_AHEAD } from './room.ts'

/** Further than anybody can book. */
const CLOSED_AHEAD = DAYS_AHEAD + 62

/** Work is booked on days that were to be off. */
export class WorkOnDaysOff extends Conflict {
  readonly days: string[]

  constructor(days: string[]) {
    super('days.work-on-days-off')
    this.days = days
  }
}

/**
 * Keeps these holidays from now on and no others: their days are off, and those of holidays no longer kept are worked
 * again, all or none.
 * @throws {WorkOnDaysOff} when work is booked on one of their days
 */
export async function keepHolidays(deps: Deps, keys: string[]): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    // One change after the other: what is dropped is what the one before kept.
    const business = await trx.selectFrom('business').selectAll().forUpdate().executeTakeFirstOrThrow()
    const range = rangeOf(business, deps.now())
    const offered = holidaysOf(business.country)
    const kept = offered.filter(({ key }) => keys.includes(key))
    const before = business.holidays
    await trx
      .updateTable('business')
      .set({ holidays: kept.map(({ key }) => key) })
      .execute()
    const dropped = offered.filter(({ key }) => before.includes(key) && !keys.includes(key))
    const fresh = kept.filter(({ key }) => !before.includes(key))
    const days = fresh.flatMap(holiday => worked(business, holiday, range))
    const again = dropped.flatMap(holiday => datesOf(holiday, range.from, range.last))
    const changed = [...again, ...days.map(({ day }) => day)]
    if (changed.length > 0) await lockWorkDays(trx, changed)
    for (const holiday of dropped) await workAgain(trx, holiday, range)
    await closeDays(trx, days)
  })
}

/** Has every working day of a range off, with what for in the owner's words. @throws {WorkOnDaysOff} */
export async function takeDaysOff(
  deps: Deps,
  business: Business,
  off: { from: string; to: string; why: string },
): Promise<void> {
  const days: { day: string; name: string }[] = []
  for (let day = off.from; day <= off.to; day = addDays(day, 1))
    if (business.working_days.includes(weekdayOf(day))) days.push({ day, name: off.why })
  await deps.db.transaction().execute(trx => closeDays(trx, days))
}

/** Has the kept holidays off as far ahead as anybody can book, for the nightly work: days that the owner opened stay open. */
export async function closeHolidaysAhead({ db, now }: Pick<Deps, 'db' | 'now'>): Promise<void> {
  const business = await db.selectFrom('business').selectAll().executeTakeFirst()
  if (!business) return
  const kept = holidaysOf(business.country).filter(({ key }) => business.holidays.includes(key))
  // In the order of their dates, as every transaction takes days.
  const days = kept
    .flatMap(holiday => worked(business, holiday, rangeOf(business, now())))
    .sort((a, b) => (a.day < b.day ? -1 : 1))
  if (days.length === 0) return
  await db
    .insertInto('work_day')
    .values(days.map(({ day, name }) => ({ day, room_hours: '0', off_for: name, by_hand: true })))
    .onConflict(conflict => conflict.column('day').doNothing())
    .execute()
}

/** What the days of a range are off for, by day. */
export async function findOffFor(
  db: Kysely<Database>,
  from: string,
  last: string,
): Promise<Map<string, string>> {
  const rows = await db
    .selectFrom('work_day')
    .select(['day', 'off_for'])
    .where('day', '>=', from)
    .where('day', '<=', last)
    .where('room_hours', '=', '0')
    .where('off_for', '<>', '')
    .execute()
  return new Map(rows.map(row => [row.day, row.off_for]))
}

function rangeOf({ time_zone }: Business, now: Temporal.Instant) {
  const from = dayOf(now, time_zone)
  return { from, last: addDays(from, CLOSED_AHEAD) }
}

function worked(business: Business, holiday: Holiday, { from, last }: { from: string; last: string }) {
  return daysOff(holiday, business.working_days, from, last).map(day => ({ day, name: holiday.name }))
}

async function workAgain(
  trx: Transaction<Database>,
  holiday: Holiday,
  { from, last }: { from: string; last: string },
): Promise<void> {
  const days = datesOf(holiday, from, last)
  if (days.length === 0) return
  await trx
    .updateTable('work_day')
    .set({ room_hours: sql`usual_room(day)`, off_for: '', by_hand: false })
    .where('day', 'in', days)
    .where('off_for', '=', holiday.name)
    .where('room_hours', '=', '0')
    .execute()
}

async function closeDays(trx: Transaction<Database>, days: { day: string; name: string }[]): Promise<void> {
  if (days.length === 0) return
  await lockWorkDays(
    trx,
    days.map(({ day }) => day),
  )
  const sorted = [...days].sort((a, b) => (a.day < b.day ? -1 : 1))
  const taken = await trx
    .selectFrom('work_day')
    .select('day')
    .where(
      'day',
      'in',
      sorted.map(({ day }) => day),
    )
    .where(eb => eb.or([eb('taken_hours', '>', '0'), eb('visit_need', '>', '0')]))
    .orderBy('day')
    .execute()
  if (taken.length > 0) throw new WorkOnDaysOff(taken.map(({ day }) => day))
  try {
    for (const { day, name } of sorted) {
      const row = { room_hours: '0', is_makeup: false, off_for: name, by_hand: true }
      await trx
        .insertInto('work_day')
        .values({ day, ...row })
        .onConflict(conflict => conflict.column('day').doUpdateSet(row))
        .execute()
    }
  } catch (error) {
    // Somebody booked one of them meanwhile; the database has the last word.
    if (isCheckViolation(error, 'work_day_has_room')) throw new WorkOnDaysOff([])
    throw error
  }
}
