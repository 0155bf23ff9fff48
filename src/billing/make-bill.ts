import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { dayOf } from '../lib/dates.ts'
import { followMoney } from '../payments/owed.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import type { AddedLine } from './compose-bill.ts'
import { prepareBill } from './prepare.ts'
import { findBills, findStandingBill, insertBill, insertCredit, requireBill } from './queries.ts'

/** What somebody saw before making a bill. */
export interface BillWanted {
  /** How many bills the request had before, undone ones too: by that a repeat is known. */
  before: number
  added: AddedLine[]
  /** What the bill was to come to; null where nobody saw it. */
  total: string | null
}

/**
 * Makes the bill of a job that is done, and has it sent; the same again changes nothing. Gives its number.
 * @throws {Conflict} when there is another bill already, the job isn't done, no price was accepted, or it would come to
 *   something else by now
 */
export async function makeBill(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { before, added, total }: BillWanted,
): Promise<string> {
  return deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const made = (await findBills(trx, quoteRequestId)).filter(({ kind }) => kind === 'bill')
    const same = made[before]
    if (same && made.length === before + 1 && same.credited_by === null) return same.number
    const { number } = request
    if (made.length !== before || request.stage !== 'done') throw new Conflict('bill.not-now', { number })
    const bill = await prepareBill(trx, quoteRequestId, added, now)
    if (!bill) throw new Conflict('bill.not-now', { number })
    if (bill.total.startsWith('-')) throw new Conflict('bill.below-zero')
    if (total !== null && total !== bill.total) throw new Conflict('bill.changed')
    const { id, number: billNumber } = await insertBill(trx, quoteRequestId, bill, { at: now, by: accountId })
    await moveTo(trx, request, 'billed', now)
    const detail = { number: billNumber, total: bill.total }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'billed', now, detail)
    await mailHomeowner(trx, deps, 'bill', quoteRequestId, now, { once: billOnce(id) })
    await followMoney(trx, request, now)
    return billNumber
  })
}

/** By what the message of a bill or a credit memo is written once. */
export function billOnce(billId: number): string {
  return `bill ${billId}`
}

/**
 * Undoes the bill that stands with a credit memo, so that the closing can be mended and a new bill made; the same again
 * changes nothing. Gives the number of the memo.
 * @throws {Conflict} when that bill doesn't stand any more
 */
export async function creditBill(
  deps: Deps,
  accountId: number,
  billNumber: string,
  reason: string,
): Promise<string> {
  return deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { quote_request_id: quoteRequestId } = await requireBill(trx, billNumber)
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const bill = await findStandingBill(trx, quoteRequestId)
    const asked = await requireBill(trx, billNumber)
    if (asked.credited_by !== null) return asked.credited_by
    if (bill?.number !== billNumber) throw new Conflict('bill.not-standing')
    const day = dayOf(now, (await requireBusiness(trx)).time_zone)
    const { id, number } = await insertCredit(trx, bill, { reason, day }, { at: now, by: accountId })
    await moveTo(trx, request, 'done', now)
    const detail = { number, bill: billNumber, reason }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'bill credited', now, detail)
    await mailHomeowner(trx, deps, 'bill-credited', quoteRequestId, now, { once: billOnce(id) })
    return number
  })
}
