import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'

/**
 * Calls the standing booking of a quote request off and gives its labor hours back to the days, for whoever calls
 * the job off; does nothing when there is none. The quote request must be locked before. Gives the first day freed.
 */
export async function giveBackDay(
  trx: Transaction<Database>,
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<string | undefined> {
  const booking = await trx
    .selectFrom('booking')
    .select(['id', 'first_day'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('called_off_at', 'is', null)
    .executeTakeFirst()
  if (!booking) return undefined
  await giveBackDays(trx, [booking.id], at)
  return booking.first_day
}

/** The same of several bookings at once, by their ids: all their shares are out before anything is put in. */
export async function giveBackDays(
  trx: Transaction<Database>,
  bookingIds: number[],
  at: Temporal.Instant,
): Promise<void> {
  if (bookingIds.length === 0) return
  await trx
    .updateTable('booking')
    .set({ called_off_at: at.toString() })
    .where('id', 'in', bookingIds)
    .execute()
  // Every transaction locks days in the order of their dates; the deletion alone would follow no order.
  await trx
    .selectFrom('work_day')
    .select('day')
    .where('day', 'in', days =>
      days.selectFrom('booking_day').select('day').where('booking_id', 'in', bookingIds),
    )
    .orderBy('day')
    .forUpdate()
    .execute()
  await trx.deleteFrom('booking_day').where('booking_id', 'in', bookingIds).execute()
}
