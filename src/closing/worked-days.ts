import type { Transaction } from 'kysely'
import { fitDays } from '../bookings/fit-days.ts'
import { findBooking } from '../bookings/queries.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'

/**
 * Lets the booked days of a locked request be those on which it was worked: what lies after the last day is given back,
 * and work that was done on another day than booked goes there, if that day had room. Else the days stay as booked.
 */
export async function keepWorkedDays(
  trx: Transaction<Database>,
  quoteRequestId: number,
  { first, last }: { first: string; last: string },
  at: Temporal.Instant,
): Promise<void> {
  const standing = await findBooking(trx, quoteRequestId)
  const quote = await findAcceptedQuote(trx, quoteRequestId)
  if (!standing || !quote) return
  if (standing.days.every(({ day }) => day < first || day > last))
    await fitDays(trx, await requireBusiness(trx), quoteRequestId, quote, at, { newStart: first })
  await freeAfter(trx, quoteRequestId, last)
}

async function freeAfter(trx: Transaction<Database>, quoteRequestId: number, last: string): Promise<void> {
  const standing = await findBooking(trx, quoteRequestId)
  const later = standing?.days.map(({ day }) => day).filter(day => day > last) ?? []
  // A booking keeps a day at least, by which it is found on the page Days.
  if (later.length === 0 || later.length === standing?.days.length) return
  // Every transaction locks days in the order of their dates.
  await trx
    .selectFrom('work_day')
    .select('day')
    .where('day', 'in', later)
    .orderBy('day')
    .forUpdate()
    .execute()
  await trx
    .deleteFrom('booking_day')
    .where('day', 'in', later)
    .where('booking_id', 'in', bookings =>
      bookings
        .selectFrom('booking')
        .select('id')
        .where('quote_request_id', '=', quoteRequestId)
        .where('called_off_at', 'is', null),
    )
    .execute()
}
