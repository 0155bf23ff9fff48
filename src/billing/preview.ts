import type { Deps } from '../deps.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { findPayments, heldOf } from '../payments/queries.ts'
import { findFees } from '../payments/returned-check.ts'
import { type PriceByStop, sortByStop } from '../quotes/stop-shares.ts'
import type { AddedLine } from './compose-bill.ts'
import { prepareBill } from './prepare.ts'
import { findBills } from './queries.ts'

/** A bill before it is made, as the staff see it. */
export interface BillPreview {
  /** How many bills there were before. */
  before: number
  /** 'Invoice' or 'Bill'. */
  word: string
  about: string[]
  lines: { position: number; label: string; note: string | null; amount: string }[]
  byStop: PriceByStop | null
  taxNote: string | null
  total: string
  /** The same as the form carries it. */
  totalTyped: string
  paid: string | null
  open: string
  /** How many lines of the owner’s own the form offers. */
  rows: number
}

/** Null where no price was accepted. */
export async function viewPreview(
  deps: Deps,
  quoteRequestId: number,
  added: readonly AddedLine[],
): Promise<BillPreview | null> {
  const { db } = deps
  const bill = await prepareBill(db, quoteRequestId, added, deps.now())
  if (!bill) return null
  const { quote, firm, billTo, day, due, orderNumber } = bill
  const money = (amount: string) => moneyInWords(amount, quote.currency, 'en')
  const lines = bill.lines.map(({ position, words, quantity, amount }) => ({
    ...{ position, label: words.en, note: quantity?.en ?? null },
    amount: money(amount),
  }))
  const paid = heldOf(await findPayments(db, quoteRequestId))
  const fees = heldOf(await findFees(db, quoteRequestId))
  const open = cents(new Decimal(bill.total).plus(fees).minus(paid))
  const isLater = firm?.days_to_pay != null && firm.days_to_pay > 0
  return {
    before: (await findBills(db, quoteRequestId)).filter(({ kind }) => kind === 'bill').length,
    word: firm ? 'Invoice' : 'Bill',
    about: [
      `To ${[billTo.name, billTo.address.replaceAll('\n', ', ')].filter(Boolean).join(', ')}`,
      `Dated ${dayInWords(day, 'en', true)}, ${isLater ? `Net ${firm.days_to_pay}, due by ${dayInWords(due, 'en', true)}` : 'due now'}`,
      ...(orderNumber ? [`Purchase order ${orderNumber}`] : []),
      ...(firm?.needs_order && !orderNumber
        ? ['They need a purchase order number, and there’s none yet.']
        : []),
    ],
    lines,
    byStop: sortByStop(quote.job, lines, bill.shares, quote.currency, 'en'),
    taxNote: bill.taxNote?.en ?? null,
    total: money(bill.total),
    totalTyped: bill.total,
    paid: Number(paid) === 0 ? null : money(paid),
    open: money(open),
    rows: added.length + 1,
  }
}
