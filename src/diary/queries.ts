import type { Kysely, Transaction } from 'kysely'
import type { Business } from '../account/queries.ts'
import type { Database } from '../db/schema.ts'
import { addDays } from '../lib/dates.ts'
import { DAYS_AHEAD, type FreeDay, pickFreeDays, type WorkDayRow } from './room.ts'

const ROOM = ['day', 'room_hours', 'taken_hours'] as const

/** The work days that have a row, from a day on; a working day without one has its usual room, all of it free. */
export async function findWorkDays(db: Kysely<Database>, fromDay: string): Promise<WorkDayRow[]> {
  return db.selectFrom('work_day').select(ROOM).where('day', '>=', fromDay).orderBy('day').execute()
}

/**
 * The next days, from `fromDay` ('YYYY-MM-DD') on, on which a job of so many crew hours can begin, with the crew
 * hours free on each: at most `count`, and none more than a year ahead.
 */
export async function freeFirstDays(
  db: Kysely<Database>,
  business: Business,
  crewHours: string,
  fromDay: string,
  count: number,
): Promise<FreeDay[]> {
  const rows = await findWorkDays(db, fromDay)
  return pickFreeDays(business, rows, crewHours, { fromDay, lastDay: addDays(fromDay, DAYS_AHEAD), count })
}

/** Makes the rows of days that have none yet, with the usual room, and locks all of them in the order of their dates. */
export async function lockWorkDays(
  trx: Transaction<Database>,
  days: string[],
  usualRoom: string,
): Promise<WorkDayRow[]> {
  const sorted = [...days].sort()
  await trx
    .insertInto('work_day')
    .values(sorted.map(day => ({ day, room_hours: usualRoom })))
    .onConflict(conflict => conflict.column('day').doNothing())
    .execute()
  return trx
    .selectFrom('work_day')
    .select(ROOM)
    .where('day', 'in', sorted)
    .orderBy('day')
    .forUpdate()
    .execute()
}
