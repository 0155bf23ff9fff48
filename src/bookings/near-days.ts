import type { Kysely } from 'kysely'
import type { FreeDay } from '../days/room.ts'
import type { Database } from '../db/schema.ts'

const NEAR_SHOWN = 3

/**
 * Which of these days have work booked near a postcode, of another request. Near is the same postcode, of a ZIP code its
 * first five digits: no place has coordinates.
 */
export async function findNearDays(
  db: Kysely<Database>,
  days: string[],
  of: { id: number; postcode: string },
): Promise<Set<string>> {
  const area = areaOf(of.postcode)
  if (days.length === 0 || area === '') return new Set()
  const rows = await db
    .selectFrom('booking_day')
    .innerJoin('booking', 'booking.id', 'booking_day.booking_id')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select(['booking_day.day', 'place.postcode'])
    .where('booking.called_off_at', 'is', null)
    .where('booking.held_until', 'is', null)
    .where('booking.say_by', 'is', null)
    .where('quote_request.id', '<>', of.id)
    .where('booking_day.day', 'in', days)
    .execute()
  return new Set(rows.filter(row => areaOf(row.postcode) === area).map(row => row.day))
}

/** The first days there are, with up to three that are near before them. */
export function nearFirst(found: FreeDay[], near: Set<string>, count: number): FreeDay[] {
  const first = found.filter(({ day }) => near.has(day)).slice(0, NEAR_SHOWN)
  return [...first, ...found.slice(0, count).filter(one => !first.includes(one))]
}

function areaOf(postcode: string): string {
  const plain = postcode.toUpperCase().replace(/[^A-Z0-9]/g, '')
  return /^\d{9}$/.test(plain) ? plain.slice(0, 5) : plain
}
