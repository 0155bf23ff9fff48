import type { Kysely, Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { addDays } from '../lib/dates.ts'
import { DAYS_AHEAD, type FreeDay, pickFreeDays, type WorkDayRow } from './room.ts'

const ROOM = ['day', 'room_hours', 'taken_hours', 'visit_need', 'is_makeup'] as const

/** The work days that have a row, from a day on; a working day without one has its usual room, all of it free. */
export async function findWorkDays(db: Kysely<Database>, fromDay: string): Promise<WorkDayRow[]> {
  return db.selectFrom('work_day').select(ROOM).where('day', '>=', fromDay).orderBy('day').execute()
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
): Promise<FreeDay[]> {
  const rows = await findWorkDays(db, fromDay)
  return pickFreeDays(business, rows, laborHours, { fromDay, lastDay: addDays(fromDay, DAYS_AHEAD), count })
}

/** Makes the rows of days that have none yet, with the usual room, and locks all of them in the order of their dates. */
export async function lockWorkDays(
  trx: Transaction<Database>,
  days: string[],
  usualRoom: string,
): Promise<void> {
  const sorted = [...new Set(days)].sort()
  await trx
    .insertInto('work_day')
    .values(sorted.map(day => ({ day, room_hours: usualRoom })))
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
export async function findWorkDaysBetween(db: Kysely<Database>, fromDay: string, lastDay: string) {
  return db
    .selectFrom('work_day')
    .select(ROOM)
    .where('day', '>=', fromDay)
    .where('day', '<=', lastDay)
    .execute()
}

/** The jobs booked on a range of days, by day and number: who, where, and the labor hours on the day and in all. */
export async function findBookedJobs(db: Kysely<Database>, fromDay: string, lastDay: string) {
  return db
    .selectFrom('booking_day')
    .innerJoin('booking', 'booking.id', 'booking_day.booking_id')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .innerJoin('quote', 'quote.id', 'booking.quote_id')
    .leftJoin('account', 'account.id', 'quote_request.given_to')
    .select(['booking_day.day', 'booking_day.hours', 'quote.labor_hours', 'quote_request.number'])
    .select(['customer.name', 'place.street', 'place.postcode', 'place.gate', 'place.dog'])
    .select('account.name as goes')
    .where('booking.called_off_at', 'is', null)
    .where('booking_day.day', '>=', fromDay)
    .where('booking_day.day', '<=', lastDay)
    .orderBy('booking_day.day')
    .orderBy('quote_request.number')
    .execute()
}
