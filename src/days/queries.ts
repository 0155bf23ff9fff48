import { type Kysely, sql, type Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { addDays } from '../lib/dates.ts'
import { DAYS_AHEAD, type FreeDay, pickFreeDays, type WorkDayRow } from './room.ts'
import { type FreeWeek, pickFreeWeeks } from './week.ts'

/**
 * The work days that have a row, from a day on; a working day without one has its usual room, all of it free. What is
 * held for somebody beyond its time counts as free already.
 */
export async function findWorkDays(
  db: Kysely<Database>,
  fromDay: string,
  now: Temporal.Instant,
): Promise<WorkDayRow[]> {
  return workDays(db, now).where('work_day.day', '>=', fromDay).orderBy('work_day.day').execute()
}

function workDays(db: Kysely<Database>, now: Temporal.Instant) {
  const past = db
    .selectFrom('booking')
    .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select('booking_day.day')
    .select(eb => eb.fn.sum<string>('booking_day.hours').as('hours'))
    .select(sql<string>`sum(hours) filter (where part = 'am')`.as('am'))
    .select(sql<string>`sum(hours) filter (where part = 'pm')`.as('pm'))
    .where('booking.called_off_at', 'is', null)
    .where('booking.held_until', '<=', now.toString())
    .groupBy('booking_day.day')
  return db
    .selectFrom('work_day')
    .leftJoin(past.as('past'), 'past.day', 'work_day.day')
    .select(['work_day.day', 'room_hours', 'visit_need', 'visit_am_need', 'visit_pm_need', 'is_makeup'])
    .select(sql<string>`taken_hours - coalesce(past.hours, 0)`.as('taken_hours'))
    .select(sql<string>`am_hours - coalesce(past.am, 0)`.as('am_hours'))
    .select(sql<string>`pm_hours - coalesce(past.pm, 0)`.as('pm_hours'))
}

/**
 * The next days, from `fromDay` ('YYYY-MM-DD') on, on which a job of so many labor hours can begin, with the labor
 * hours free on each: at most `count`, and none more than a year ahead.
 */
export async function freeFirstDays(
  db: Kysely<Database>,
  business: Business,
  laborHours: string,
  fromDay: string,
  count: number,
  now: Temporal.Instant,
): Promise<FreeDay[]> {
  const rows = await findWorkDays(db, fromDay, now)
  return pickFreeDays(business, rows, laborHours, { fromDay, lastDay: addDays(fromDay, DAYS_AHEAD), count })
}

/** The next weeks, from a day on, that have room for all of a job: at most `count`, and none more than a year ahead. */
export async function freeWeeks(
  db: Kysely<Database>,
  business: Business,
  laborHours: string,
  fromDay: string,
  count: number,
  now: Temporal.Instant,
): Promise<FreeWeek[]> {
  const rows = await findWorkDays(db, fromDay, now)
  return pickFreeWeeks(business, rows, laborHours, { fromDay, lastDay: addDays(fromDay, DAYS_AHEAD), count })
}

/** Makes the rows of days that have none yet, with the usual room, and locks all of them in the order of their dates. */
export async function lockWorkDays(trx: Transaction<Database>, days: string[]): Promise<void> {
  const sorted = [...new Set(days)].sort()
  await trx
    .insertInto('work_day')
    .values(sorted.map(day => ({ day, room_hours: sql<string>`usual_room(${day}::date)` })))
    .onConflict(conflict => conflict.column('day').doNothing())
    .execute()
  await trx
    .selectFrom('work_day')
    .select('day')
    .where('day', 'in', sorted)
    .orderBy('day')
    .forUpdate()
    .execute()
}

/** The work days that have a row, of a range of days. */
export async function findWorkDaysBetween(
  db: Kysely<Database>,
  fromDay: string,
  lastDay: string,
  now: Temporal.Instant,
) {
  return workDays(db, now).where('work_day.day', '>=', fromDay).where('work_day.day', '<=', lastDay).execute()
}

/**
 * The jobs booked on a range of days, by day and number: who, where, and the labor hours on the day and in all. Those
 * that are held for who asked for the day say until when; none whose time is over.
 */
export async function findBookedJobs(
  db: Kysely<Database>,
  fromDay: string,
  lastDay: string,
  now: Temporal.Instant,
) {
  return (
    db
      .selectFrom('booking_day')
      .innerJoin('booking', 'booking.id', 'booking_day.booking_id')
      .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
      .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
      .innerJoin('place', 'place.id', 'quote_request.place_id')
      .innerJoin('quote', 'quote.id', 'booking.quote_id')
      .leftJoin('account', 'account.id', 'quote_request.given_to')
      .select([
        'booking_day.day',
        'booking_day.hours',
        'booking_day.part',
        'quote.labor_hours',
        'quote_request.number',
      ])
      .select(['customer.name', 'place.street', 'place.postcode', 'place.gate', 'place.dog'])
      .select(['account.name as goes', 'booking.held_until', 'booking.say_by'])
      .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
      .where('booking.called_off_at', 'is', null)
      .where(eb =>
        eb.or([eb('booking.held_until', 'is', null), eb('booking.held_until', '>', now.toString())]),
      )
      .where('booking_day.day', '>=', fromDay)
      .where('booking_day.day', '<=', lastDay)
      .orderBy('booking_day.day')
      // The morning first, the day at large last.
      .orderBy('booking_day.part')
      .orderBy('quote_request.number')
      .execute()
  )
}
