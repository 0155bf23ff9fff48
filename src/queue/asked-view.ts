import { isOver } from '../bookings/day-asked.ts'
import type { findBooking } from '../bookings/queries.ts'
import type { Business } from '../business/queries.ts'
import { daysToOffer } from '../days/days-to-offer.ts'
import { readDay } from '../days/form.ts'
import type { Deps } from '../deps.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { earliestWork } from '../quotes/conditions.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import type { RequestRow } from '../requests/queries.ts'

/** The day that a homeowner asks for, until when it is held, and the days that may be offered instead. */
export interface AskedView {
  day: string
  until: string
  others: { value: string; label: string }[]
}

/** Null where no day is asked for, or its time is over. */
export async function viewAsked(
  deps: Deps,
  business: Business,
  wanted: RequestRow,
  booking: Awaited<ReturnType<typeof findBooking>>,
): Promise<AskedView | null> {
  if (wanted.stage !== 'day asked' || !booking?.held_until || isOver(booking, deps.now())) return null
  const quote = await findAcceptedQuote(deps.db, wanted.id)
  const days = quote ? await daysOpen(deps, business, quote) : []
  return {
    day: booking.start,
    until: momentInWords(booking.held_until, business.time_zone, 'en'),
    // A day is offered, of which they choose the half.
    others: days.filter(({ value }) => readDay(value) && value !== booking.first_day),
  }
}

/** The days that can be offered on the phone for accepted work. */
export async function daysOpen(
  deps: Deps,
  business: Business,
  quote: Parameters<typeof earliestWork>[1] & { labor_hours: string },
) {
  const earliest = earliestWork(business, quote, deps.now(), 'staff')
  const days = await daysToOffer(deps, business, quote.labor_hours)
  return days.filter(({ value }) => value >= earliest)
}
