import type { PaymentWay } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { OVER } from '../requests/take-up-again.ts'
import { findHeld, findPayments, findSettled, insertPayment } from './queries.ts'

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
  { back, day, way }: Settling,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { stage, number } = await lockQuoteRequest(trx, quoteRequestId)
    const settled = await findSettled(trx, quoteRequestId)
    if (settled?.back === back) return
    if (settled) throw new Conflict('deposit.again')
    if (!OVER.includes(stage)) throw new Conflict('deposit.not-ended', { number })
    const held = new Decimal(await findHeld(trx, quoteRequestId))
    if (!held.gt(0)) throw new Conflict('deposit.nothing-held', { number })
    if (held.lt(back)) throw new Conflict('deposit.too-much')
    if (Number(back) > 0) {
      const nth = (await findPayments(trx, quoteRequestId)).length + 1
      await insertPayment(trx, {
        quote_request_id: quoteRequestId,
        ...{ nth, kind: 'refund', amount: `-${back}`, day, way },
        made_at: now.toString(),
        made_by: accountId,
      })
    }
    const kept = cents(held.minus(back))
    await trx
      .insertInto('deposit_settled')
      .values({
        quote_request_id: quoteRequestId,
        kept,
        back,
        settled_at: now.toString(),
        settled_by: accountId,
      })
      .execute()
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'deposit settled', now, { kept, back })
  })
}
