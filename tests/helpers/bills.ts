import { makeBill } from '../../src/billing/make-bill.ts'
import { bookDay } from '../../src/bookings/booking.ts'
import { receivePayment } from '../../src/payments/pay.ts'
import { findPayments } from '../../src/payments/queries.ts'
import type { TestApp } from './app.ts'
import { acceptedRequest } from './bookings.ts'

/** A job that is done and not billed yet. */
export async function doneRequest(app: TestApp, instead = {}) {
  const accepted = await acceptedRequest(app, '0.25', instead)
  await bookDay(app.deps, accepted.id, '2026-03-31')
  await markDone(app, accepted.id)
  return accepted
}

/** A booked job is done, as the day's closing leaves it. */
export async function markDone(app: TestApp, id: number): Promise<void> {
  await app.db
    .updateTable('quote_request')
    .set({ stage: 'done', stage_at: app.deps.now().toString() })
    .where('id', '=', id)
    .execute()
}

/** The same with its bill. */
export async function billedRequest(app: TestApp, instead = {}) {
  const done = await doneRequest(app, instead)
  return { ...done, bill: await makeBill(app.deps, 1, done.id, { before: 0, added: [], total: null }) }
}

/** Pays so much for a bill, by check unless told otherwise. Gives the id of the payment. */
export async function pay(app: TestApp, id: number, amount: string, instead = {}): Promise<number> {
  const nth = (await findPayments(app.db, id)).length + 1
  const paid = { nth, amount, tip: '0.00', day: '2026-03-02', way: 'check' as const, ...instead }
  await receivePayment(app.deps, 1, id, paid)
  return (await findPayments(app.db, id)).find(one => one.nth === nth)!.id
}
