import type { Transaction } from 'kysely'
import type { PaymentWay } from '../db/schema/payments.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { OVER } from '../requests/take-up-again.ts'
import { tellGivenBack } from './given-back.ts'
import { findHeld, findPayments, findSettled, insertPayment } from './queries.ts'

/** Stands for as much as is held. */
export const ALL = 'all'

/** What becomes of a deposit: how much of it goes back ('0.00' keeps all), on which day and in which way. */
export interface Settling {
  back: string
  day: string
  way: PaymentWay
}

/**
 * Settles what is held of a request that has ended: kept, part of it, or given back. That takes it off the list. The
 * same again changes nothing.
 * @throws {Conflict} when the request hasn't ended, nothing is held, more is to go back than is held, or it was settled
 *   otherwise
 */
export async function settleDeposit(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  settling: Settling,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const { stage, number } = await lockQuoteRequest(trx, quoteRequestId)
    if (!OVER.includes(stage) && !(await findSettled(trx, quoteRequestId)))
      throw new Conflict('deposit.not-ended', { number })
    await settleEnded(trx, deps, { id: quoteRequestId, number }, accountId, settling)
  })
}

/**
 * The same in the transaction of a locked request that has ended; `back` may be ALL.
 * @throws {Conflict} when nothing is held, more is to go back than is held, or it was settled otherwise
 */
export async function settleEnded(
  trx: Transaction<Database>,
  deps: Deps,
  request: { id: number; number: string },
  accountId: number,
  settling: Settling,
): Promise<void> {
  const settled = await findSettled(trx, request.id)
  if (!settled) return settleHeld(trx, deps, request, accountId, settling)
  if (!(await isSettledSo(trx, request.id, settled, settling)))
    throw new Conflict('deposit.settled-otherwise')
}

async function isSettledSo(
  trx: Transaction<Database>,
  id: number,
  settled: { kept: string; back: string },
  { back, day, way }: Settling,
): Promise<boolean> {
  const isAll = back === ALL && Number(settled.kept) === 0
  if (!isAll && back !== settled.back) return false
  if (Number(settled.back) === 0) return true
  const gone = (await findPayments(trx, id)).findLast(({ kind }) => kind === 'refund')
  return gone?.day === day && gone.way === way
}

/**
 * The same of one that wasn't settled, as one that ends in this transaction. Of what goes back they are sent a receipt.
 * @throws {Conflict} when nothing is held, or more is to go back than is held
 */
export async function settleHeld(
  trx: Transaction<Database>,
  deps: Deps,
  { id, number }: { id: number; number: string },
  accountId: number,
  { back: wanted, day, way }: Settling,
): Promise<void> {
  const now = deps.now()
  const held = new Decimal(await findHeld(trx, id))
  if (!held.gt(0)) throw new Conflict('deposit.nothing-held', { number })
  const back = wanted === ALL ? cents(held) : wanted
  if (held.lt(back)) throw new Conflict('deposit.too-much')
  if (Number(back) > 0) {
    const nth = (await findPayments(trx, id)).length + 1
    const paymentId = await insertPayment(trx, {
      quote_request_id: id,
      ...{ nth, kind: 'refund', amount: `-${back}`, day, way },
      made_at: now.toString(),
      made_by: accountId,
    })
    await tellGivenBack(trx, deps, id, paymentId, now)
  }
  const kept = cents(held.minus(back))
  const at = now.toString()
  await trx
    .insertInto('deposit_settled')
    .values({ quote_request_id: id, kept, back, settled_at: at, settled_by: accountId })
    .execute()
  await recordHistory(trx, id, { kind: 'staff', accountId }, 'deposit settled', now, { kept, back })
}
