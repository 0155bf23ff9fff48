import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { followMoney } from './owed.ts'
import { findPayments, findSettled, insertPayment } from './queries.ts'
import { oppositeOf } from './receive.ts'

/** A check as the bank returned it: on which day, and what that costs its customer ('0.00' for nothing). */
export interface ReturnedCheck {
  paymentId: number
  day: string
  fee: string
}

/** By what a customer is told once of a returned check. */
export function returnedOnce(paymentId: number): string {
  return `check-returned ${paymentId}`
}

/**
 * Undoes a check that came back, charges its fee, marks its customer, and has them told; a repeat changes nothing.
 * @throws {Conflict} when it is no check that was received, it was returned on another day or for another fee, or what is
 *   held was settled
 */
export async function returnCheck(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { paymentId, day, fee }: ReturnedCheck,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const made = { made_at: now.toString(), made_by: accountId }
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const before = await findPayments(trx, quoteRequestId)
    const check = before.find(({ id, undoes }) => id === paymentId && undoes === null)
    if (check?.is_returned) {
      if (await isReturnedSo(trx, { paymentId, day, fee })) return
      throw new Conflict('bill.returned-otherwise')
    }
    const isCheck = check && check.way === 'check' && check.kind !== 'refund' && check.undone_by === null
    if (!isCheck || (await findSettled(trx, quoteRequestId))) throw new Conflict('bill.not-a-check')
    await insertPayment(trx, {
      quote_request_id: quoteRequestId,
      ...{ nth: before.length + 1, kind: check.kind, day, way: 'check', undoes: check.id, returned: true },
      ...oppositeOf(check),
      ...made,
    })
    if (Number(fee) > 0) {
      const row = { quote_request_id: quoteRequestId, payment_id: check.id, amount: fee, day }
      await trx
        .insertInto('fee')
        .values({ ...row, ...made })
        .execute()
    }
    await markChecks(trx, quoteRequestId, now.toString())
    const doer = { kind: 'staff', accountId } as const
    const detail = { amount: check.amount, day, fee }
    await recordHistory(trx, quoteRequestId, doer, 'check returned', now, detail)
    await mailHomeowner(trx, deps, 'check-returned', quoteRequestId, now, { once: returnedOnce(check.id) })
    await followMoney(trx, request, now)
  })
}

async function isReturnedSo(
  trx: Transaction<Database>,
  { paymentId, day, fee }: ReturnedCheck,
): Promise<boolean> {
  const { day: returnedOn } = await trx
    .selectFrom('payment')
    .select('day')
    .where('undoes', '=', paymentId)
    .executeTakeFirstOrThrow()
  const charged = await trx
    .selectFrom('fee')
    .select('amount')
    .where('payment_id', '=', paymentId)
    .where('undoes', 'is', null)
    .executeTakeFirst()
  return returnedOn === day && new Decimal(charged?.amount ?? 0).eq(fee)
}

/** The fees of a request that stand, with the check that each is for. */
export async function findFees(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('fee')
    .leftJoin('fee as undoing', 'undoing.undoes', 'fee.id')
    .select(['fee.id', 'fee.amount', 'fee.day', 'fee.payment_id'])
    .where('fee.quote_request_id', '=', quoteRequestId)
    .where('fee.undoes', 'is', null)
    .where('undoing.id', 'is', null)
    .orderBy('fee.id')
    .execute()
}

/** Lets a fee go; a repeat changes nothing. */
export async function waiveFee(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  feeId: number,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const fee = (await findFees(trx, quoteRequestId)).find(({ id }) => id === feeId)
    if (!fee) return
    const amount = cents(new Decimal(fee.amount).negated())
    const row = { quote_request_id: quoteRequestId, payment_id: fee.payment_id, amount, day: fee.day }
    await trx
      .insertInto('fee')
      .values({ ...row, undoes: fee.id, made_at: now.toString(), made_by: accountId })
      .execute()
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'fee waived', now, { amount: fee.amount })
    await followMoney(trx, request, now)
  })
}

/** Whether anybody of the customer's group is marked, so that their checks aren't taken. */
export async function takesNoChecks(db: Kysely<Database>, quoteRequestId: number): Promise<boolean> {
  const { rows } = await sql<{ marked: boolean }>`
    select exists (select from customer where no_checks_since is not null and head_id = (
      select head_id from customer join quote_request on customer_id = customer.id
      where quote_request.id = ${quoteRequestId})) as marked`.execute(db)
  return rows[0]!.marked
}

/** Takes the customer's checks again; a repeat changes nothing. */
export async function takeChecksAgain(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    if (!(await takesNoChecks(trx, quoteRequestId))) return
    await markChecks(trx, quoteRequestId, null)
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'checks taken again', deps.now())
  })
}

async function markChecks(trx: Transaction<Database>, quoteRequestId: number, since: string | null) {
  await sql`
    update customer set no_checks_since = ${since}::timestamptz where head_id = (
      select head_id from customer join quote_request on customer_id = customer.id
      where quote_request.id = ${quoteRequestId})`.execute(trx)
}
