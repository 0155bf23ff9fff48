import { acceptQuote } from '../../src/bookings/booking.ts'
import type { Conditions } from '../../src/db/schema/payments.ts'
import type { TestApp } from '../helpers/app.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

// 3 yd³ of shredded wood at 90 are 270.00; a quarter of it is 67.50.
export const BEDS = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))
export const QUARTER: Conditions = {
  deposit: { by: 'share', value: '0.25', cap: null, daysBefore: null },
  notice: null,
  waits: false,
}
export const PAID = { nth: 1, amount: '67.50', day: '2026-03-02', way: 'check' } as const

export function wordsOf(html: string): string {
  return html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
}

/** A request whose price asks for a deposit, a quarter of it unless told otherwise. */
export async function asking(app: TestApp, conditions: Conditions = QUARTER) {
  const { number, ownPath } = await sendRequest(app, { told: BEDS })
  const { id, bookingPath: path } = await quoteRequest(app, number, { conditions })
  return { id, number, path, ownPath }
}

/** The same, accepted without a day. */
export async function accepted(app: TestApp, conditions?: Conditions) {
  const asked = await asking(app, conditions)
  await acceptQuote(app.deps, asked.id, { revision: 1, typedName: 'Carol Reyes' })
  return asked
}

/** Its money as it changed hands, in turn. */
export async function paymentsOf(app: TestApp, id: number) {
  return app.db
    .selectFrom('payment')
    .select(['kind', 'amount', 'undoes'])
    .where('quote_request_id', '=', id)
    .orderBy('nth')
    .execute()
}
