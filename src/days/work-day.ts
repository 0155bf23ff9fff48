import type { Business } from '../business/queries.ts'
import { isCheckViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import type { Key } from '../language/catalogue.ts'
import { dayOf, weekdayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'

/** The database refuses less room than is taken already; `taken` are the labor hours booked on the day. */
export class RoomTaken extends Conflict {
  readonly taken: string

  constructor(day: string, taken: string, key: Key = 'days.room-taken') {
    super(key, { day, taken })
    this.taken = taken
  }
}

/** Whether a day's room can be changed: one that is not past, where the business is. */
export function isOpenToChange(business: Business, day: string, now: Temporal.Instant): boolean {
  return day >= dayOf(now, business.time_zone)
}

/**
 * Gives a work day room for so many labor hours, 0 closes it; or keeps the day, of whatever weekday, for what rain moves.
 * @throws {RoomTaken} when more than that is booked already
 * @throws {Conflict} when it is no working day and isn't kept either, or past
 */
export async function setRoom(
  deps: Deps,
  business: Business,
  day: string,
  hours: string,
  isMakeup = false,
): Promise<void> {
  const isWorked = isMakeup || Number(hours) === 0 || business.working_days.includes(weekdayOf(day))
  if (!isWorked || !isOpenToChange(business, day, deps.now())) throw new Conflict('days.not-a-work-day')
  const row = { room_hours: hours, is_makeup: isMakeup && Number(hours) > 0, off_for: '', by_hand: true }
  try {
    await deps.db
      .insertInto('work_day')
      .values({ day, ...row })
      .onConflict(conflict => conflict.column('day').doUpdateSet(row))
      .execute()
  } catch (error) {
    if (!isCheckViolation(error, 'work_day_has_room')) throw error
    const { taken_hours, am_hours, pm_hours } = await deps.db
      .selectFrom('work_day')
      .select(['taken_hours', 'am_hours', 'pm_hours'])
      .where('day', '=', day)
      .executeTakeFirstOrThrow()
    const halves = Decimal.max(am_hours, pm_hours).times(2)
    throw halves.gt(taken_hours)
      ? new RoomTaken(day, halves.toFixed(2), 'days.half-taken')
      : new RoomTaken(day, taken_hours)
  }
}
