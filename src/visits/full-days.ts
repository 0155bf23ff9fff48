import type { Kysely } from 'kysely'
import type { Business } from '../business/queries.ts'
import { findWorkDays } from '../days/queries.ts'
import { roomsOf } from '../days/room.ts'
import type { Database } from '../db/schema.ts'
import { dayOf } from '../lib/dates.ts'
import type { VisitRules } from './free-times.ts'

/** When there can be visits, with the days from a moment on that are closed or have no room left for one. */
export async function visitRules(
  db: Kysely<Database>,
  business: Business,
  from: Temporal.Instant,
  now = from,
): Promise<VisitRules & { fullDays: ReadonlySet<string> }> {
  const rows = await findWorkDays(db, dayOf(from, business.time_zone), now)
  const roomOn = roomsOf(business, rows, 'counted')
  const hours = business.visit_minutes / 60
  // Days that nobody works have no room to be short of, but may be closed.
  const full = rows.filter(({ day, room_hours }) => {
    const on = roomOn(day)
    return Number(room_hours) === 0 || (on?.room.minus(on.taken).lt(hours) ?? false)
  })
  return { ...business, fullDays: new Set(full.map(({ day }) => day)) }
}
