import type { Kysely } from 'kysely'
import type { Business } from '../business/queries.ts'
import { findWorkDays } from '../days/queries.ts'
import { roomsOf, type WorkDayRow } from '../days/room.ts'
import type { Database } from '../db/schema.ts'
import { dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { hoursInHalves, type RoomForVisits, type VisitRules, type VisitTaken } from './free-times.ts'

/**
 * When there can be visits, with what room the days from a moment on have for them. What `own` takes, the visit that is
 * about to move, counts as free.
 */
export async function visitRules(
  db: Kysely<Database>,
  business: Business,
  from: Temporal.Instant,
  { now = from, own }: { now?: Temporal.Instant; own?: VisitTaken | undefined } = {},
): Promise<VisitRules & RoomForVisits> {
  const rows = await findWorkDays(db, dayOf(from, business.time_zone), now)
  return { ...business, ...roomOf(business, own ? withoutVisit(rows, own, business.time_zone) : rows) }
}

function withoutVisit(rows: WorkDayRow[], { starts_at, minutes }: VisitTaken, zone: string): WorkDayRow[] {
  const startsAt = Temporal.Instant.from(starts_at)
  const { am, pm } = hoursInHalves(startsAt, minutes, zone)
  const less = (need: string | undefined, by: Decimal) =>
    Decimal.max(0, new Decimal(need ?? 0).minus(by)).toFixed()
  return rows.map(row =>
    row.day !== dayOf(startsAt, zone)
      ? row
      : {
          ...row,
          visit_need: less(row.visit_need, am.plus(pm)),
          visit_am_need: less(row.visit_am_need, am),
          visit_pm_need: less(row.visit_pm_need, pm),
        },
  )
}

function roomOf(business: Business, rows: WorkDayRow[]): RoomForVisits {
  const roomOn = roomsOf(business, rows, 'counted')
  const hours = business.visit_minutes / 60
  const fullDays = new Set<string>()
  const halvesLeft: RoomForVisits['halvesLeft'] = new Map()
  for (const { day, room_hours } of rows) {
    const on = roomOn(day)
    // Days that nobody works have no room to be short of, but may be closed.
    if (Number(room_hours) === 0 || on?.room.minus(on.taken).lt(hours)) fullDays.add(day)
    if (!on || !business.half_days) continue
    const half = on.room.div(2)
    halvesLeft.set(day, { am: half.minus(on.am), pm: half.minus(on.pm) })
  }
  return { fullDays, halvesLeft }
}
