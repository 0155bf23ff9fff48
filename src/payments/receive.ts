import type { PaymentWay } from '../db/schema/payments.ts'
import { isCheckViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { followMoney } from './owed.ts'
import { findPayments, findSettled, insertPayment } from './queries.ts'

/** Money as somebody of the staff notes it: how much, on which day, in which way. */
export interface PaymentNoted {
  /** Which payment of its request this is to become: one more than there were on the page. */
  nth: number
  amount: string
  day: string
  way: PaymentWay
}

/**
 * Notes a deposit that was received, and has its homeowner sent a receipt; the same noted again changes nothing.
 * @throws {Conflict} when another payment was noted since the page was opened
 */
export async function receiveDeposit(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { nth, amount, day, way }: PaymentNoted,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { stage } = await lockQuoteRequest(trx, quoteRequestId)
    const before = await findPayments(trx, quoteRequestId)
    const same = before.find(one => one.nth === nth)
    const isSame = same?.amount === amount && same.day === day && same.way === way && same.undoes === null
    if (isSame && same.kind === 'deposit') return
    // What comes for a bill is no deposit.
    if (stage === 'billed' || stage === 'paid') throw new Conflict('bill.again')
    if (nth !== before.length + 1 || (await findSettled(trx, quoteRequestId)))
      throw new Conflict('deposit.again')
    const id = await insertPayment(trx, {
      quote_request_id: quoteRequestId,
      ...{ nth, kind: 'deposit', amount, day, way },
      made_at: now.toString(),
      made_by: accountId,
    })
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'deposit received', now, { amount, day, way })
    await mailHomeowner(trx, deps, 'deposit-received', quoteRequestId, now, { once: depositOnce(id) })
  })
}

/** By what the receipt of a payment is written once. */
export function depositOnce(paymentId: number): string {
  return `deposit-received ${paymentId}`
}

/**
 * Takes back a payment that was noted by mistake, by a row of the opposite amount; a repeat changes nothing.
 * @throws {Conflict} when there is none to be undone, some of it was given back, or what is held was settled
 */
export async function undoPayment(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  paymentId: number,
): Promise<void> {
  const undoing = deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const before = await findPayments(trx, quoteRequestId)
    const wrong = before.find(({ id, undoes }) => id === paymentId && undoes === null)
    if (wrong?.undone_by) return
    if (!wrong || (await findSettled(trx, quoteRequestId))) throw new Conflict('deposit.no-such')
    const { kind, day, way } = wrong
    await insertPayment(trx, {
      quote_request_id: quoteRequestId,
      ...{ nth: before.length + 1, kind, day, way, undoes: wrong.id, ...oppositeOf(wrong) },
      made_at: now.toString(),
      made_by: accountId,
    })
    const detail = { amount: wrong.amount, day, way }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'payment undone', now, detail)
    await followMoney(trx, request, now)
  })
  try {
    await undoing
  } catch (error) {
    if (isCheckViolation(error, 'payment_not_below_zero')) throw new Conflict('bill.given-back-first')
    if (isCheckViolation(error, 'payment_credit')) throw new Conflict('bill.no-credit')
    throw error
  }
}

/** The amount and the tip of what undoes a payment. */
export function oppositeOf({ amount, tip }: { amount: string; tip: string }): {
  amount: string
  tip: string
} {
  return { amount: cents(new Decimal(amount).negated()), tip: cents(new Decimal(tip).negated()) }
}
