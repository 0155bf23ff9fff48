import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { remindOfBill } from '../../src/billing/remind.ts'
import { bookDay } from '../../src/bookings/booking.ts'
import { receivePayment } from '../../src/payments/pay.ts'
import { findPayments } from '../../src/payments/queries.ts'
import { returnCheck } from '../../src/payments/returned-check.ts'
import { findLinkPath } from '../../src/requests/links.ts'
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
  const made_at = app.deps.now().toString()
  await app.db
    .insertInto('job_closing')
    .values({
      ...{ quote_request_id: id, version: 1, outcome: 'done', as_planned: true, note: '', trips: null },
      ...{ first_day: '2026-03-30', last_day: '2026-03-31', made_at, made_by: 1 },
    })
    .execute()
  await app.db
    .updateTable('quote_request')
    .set({ stage: 'done', stage_at: made_at })
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

/** A job whose bill was paid by one check; `customer` is whose it is. */
export async function paidByCheck(app: TestApp, instead = {}) {
  const { id, number, bill } = await billedRequest(app, instead)
  const { total } = await app.db
    .selectFrom('bill')
    .select('total')
    .where('number', '=', bill)
    .executeTakeFirstOrThrow()
  const payment = await pay(app, id, total)
  const { customer_id } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return { id, number, total, payment, customer: customer_id }
}

/** More was paid than its bill. */
export async function overpaidRequest(app: TestApp) {
  const billed = await billedRequest(app)
  await pay(app, billed.id, '9999.00')
  return billed
}

/** Its check came back, with a fee. */
export async function returnedRequest(app: TestApp) {
  const billed = await billedRequest(app)
  const paymentId = await pay(app, billed.id, '50.00')
  await returnCheck(app.deps, 1, billed.id, { paymentId, day: '2026-03-02', fee: '25.00' })
  return { ...billed, billPath: `${await ownPathOf(app, billed.id)}/bills/${billed.bill}` }
}

/** Where its homeowner reads a bill. */
export async function ownBillPage(app: TestApp): Promise<string> {
  const { id, bill } = await billedRequest(app)
  return `${await ownPathOf(app, id)}/bills/${bill}`
}

/** Where the staff read a credit memo. */
export async function creditMemoPage(app: TestApp): Promise<string> {
  const { bill } = await billedRequest(app)
  return `/bills/${await creditBill(app.deps, 1, bill, 'Wrong depth')}`
}

/** Where bills are read that went every way: paid in part and reminded of, undone, and with a check that came back. */
export async function billPagesOfAll(app: TestApp): Promise<string[]> {
  const { id, bill } = await billedRequest(app)
  await pay(app, id, '10.00')
  await remindOfBill(app.deps, 1, id, 0)
  await creditMemoPage(app)
  return [`${await ownPathOf(app, id)}/bills/${bill}`, (await returnedRequest(app)).billPath]
}

async function ownPathOf(app: TestApp, id: number): Promise<string> {
  return (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
}
