import type { Transaction } from 'kysely'
import type { PaymentTable } from '../db/schema/payments.ts'
import type { Database } from '../db/schema.ts'
import { isCheckViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { Decimal } from '../lib/decimal.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { type LockedRequest, lockQuoteRequest } from '../requests/stage.ts'
import { tellGivenBack } from './given-back.ts'
import { findOwed, followMoney } from './owed.ts'
import { findPayments, insertPayment } from './queries.ts'

/** Money for a bill as somebody of the staff notes it; below `amount` what was given beside it. */
export interface BillPayment {
  /** Which of its request it is to become: one more than there were on the page. */
  nth: number
  amount: string
  tip: string
  day: string
  way: PaymentTable['way']
}

/** By what the receipt of a payment is written once. */
export function paymentOnce(paymentId: number): string {
  return `payment-received ${paymentId}`
}

/**
 * Notes what was paid for a bill, and has its customer sent a receipt; the same noted again changes nothing.
 * @throws {Conflict} when there is no bill, something else was noted since, or there isn't that much credit
 */
export async function receivePayment(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  paid: BillPayment,
): Promise<void> {
  await noted(deps, accountId, quoteRequestId, { kind: 'payment', ...paid }, async (trx, request, id) => {
    if (request.stage !== 'billed' && request.stage !== 'paid') throw new Conflict('bill.not-billed')
    const { amount, tip, day, way } = paid
    const detail = { amount, day, way, ...(Number(tip) > 0 && { tip }) }
    const now = deps.now()
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'payment received', now, detail)
    await mailHomeowner(trx, deps, 'payment-received', quoteRequestId, now, { once: paymentOnce(id) })
  })
}

/**
 * Gives back what was paid too much, or keeps it as the customer's credit by the way 'credit', and tells them; the same
 * again changes nothing.
 * @throws {Conflict} when that is more than was paid too much, or something else was noted since
 */
export async function giveBack(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { nth, amount, day, way }: Omit<BillPayment, 'tip'>,
): Promise<void> {
  const row = { kind: 'refund', nth, amount: `-${amount}`, tip: '0.00', day, way } as const
  await noted(deps, accountId, quoteRequestId, row, async (trx, { stage }, id) => {
    if (stage !== 'billed' && stage !== 'paid' && stage !== 'done') throw new Conflict('bill.not-billed')
    // The row is there by now.
    if ((await findOwed(trx, quoteRequestId)).gt(0)) throw new Conflict('bill.not-over')
    const verb = way === 'credit' ? 'credit kept' : 'given back'
    const detail = { amount, day, way }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, verb, deps.now(), detail)
    await tellGivenBack(trx, deps, quoteRequestId, id, deps.now())
  })
}

async function noted(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  row: BillPayment & { kind: PaymentTable['kind'] },
  besides: (trx: Transaction<Database>, request: LockedRequest, id: number) => Promise<void>,
): Promise<void> {
  const act = deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const before = await findPayments(trx, quoteRequestId)
    const same = before.find(one => one.nth === row.nth)
    if (same && isSame(same, row)) return
    if (row.nth !== before.length + 1) throw new Conflict('bill.again')
    const id = await insertPayment(trx, {
      quote_request_id: quoteRequestId,
      ...row,
      made_at: deps.now().toString(),
      made_by: accountId,
    })
    await besides(trx, request, id)
    await followMoney(trx, request, deps.now())
  })
  try {
    await act
  } catch (error) {
    if (isCheckViolation(error, 'payment_credit')) throw new Conflict('bill.no-credit')
    if (isCheckViolation(error, 'payment_not_below_zero')) throw new Conflict('bill.not-over')
    throw error
  }
}

function isSame(
  one: Awaited<ReturnType<typeof findPayments>>[number],
  row: BillPayment & { kind: string },
): boolean {
  const alike = one.kind === row.kind && one.day === row.day && one.way === row.way && one.undoes === null
  return alike && new Decimal(one.amount).eq(row.amount) && new Decimal(one.tip).eq(row.tip)
}
