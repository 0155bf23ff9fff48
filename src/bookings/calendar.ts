import type { Deps } from '../deps.ts'
import type { CalendarEntry } from '../outbox/calendar.ts'
import { entryFor, type ToldAs } from '../outbox/entry-words.ts'

/**
 * The work days of a request as its homeowner's calendar has them, as one entry from the first to the last; undefined
 * where none was ever booked.
 */
export async function workEntry(
  deps: Pick<Deps, 'db' | 'config'>,
  quoteRequestId: number,
  told: ToldAs,
): Promise<CalendarEntry | undefined> {
  const bookings = await deps.db
    .selectFrom('booking')
    // A booking that was called off has given its days back.
    .leftJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select(eb => ['booking.first_day', 'booking.called_off_at', eb.fn.max('booking_day.day').as('last_day')])
    .where('quote_request_id', '=', quoteRequestId)
    // What was only held, or penciled in, was never told as booked.
    .where('booking.held_until', 'is', null)
    .where('booking.say_by', 'is', null)
    .groupBy('booking.id')
    .orderBy('booking.id')
    .execute()
  const last = bookings.at(-1)
  if (!last) return undefined
  const dated = {
    sequence: bookings.length - 1 + bookings.filter(booking => booking.called_off_at).length,
    when: { day: last.first_day, lastDay: last.last_day ?? last.first_day },
    isCanceled: last.called_off_at !== null,
  }
  return entryFor(deps, 'work', dated, told)
}
