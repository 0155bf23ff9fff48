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
    .updateTable('booking')
    .set({ called_off_at: at.toString() })
    .where('quote_request_id', '=', quoteRequestId)
    .where('called_off_at', 'is', null)
    .returning(['id', 'first_day'])
    .executeTakeFirst()
  if (!booking) return undefined
  // Every transaction locks days in the order of their dates; the deletion alone would follow no order.
  await trx
    .selectFrom('work_day')
    .select('day')
    .where('day', 'in', days =>
      days.selectFrom('booking_day').select('day').where('booking_id', '=', booking.id),
    )
    .orderBy('day')
    .forUpdate()
    .execute()
  await trx.deleteFrom('booking_day').where('booking_id', '=', booking.id).execute()
  return booking.first_day
}
