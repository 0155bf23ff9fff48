import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import { paymentOnce } from '../payments/pay.ts'
import { findPayments } from '../payments/queries.ts'
import { findFees, returnedOnce } from '../payments/returned-check.ts'
import { wayInWords } from '../payments/way-words.ts'
import { linkTo, pageLink } from '../requests/messages.ts'
import { billOnce } from './make-bill.ts'
import { type BillRow, findBills, findStandingBill } from './queries.ts'
import { findMoney } from './standing.ts'

/** Of bills, and of the money for them. */
export const billMessages = {
  bill: billMade,
  'bill-credited': billCredited,
  'bill-reminder': reminder,
  'payment-received': paymentReceived,
  'check-returned': checkReturned,
} satisfies Partial<Record<MessageKind, WriteMessage>>

/** None once the bill was undone. */
async function billMade(about: About): Promise<Message | null> {
  const { t, row } = about
  const bill = (await findBills(about.deps.db, row.request_id)).find(({ id }) => row.once === billOnce(id))
  if (!bill || bill.credited_by !== null) return null
  const said = await toPay(about, bill)
  const params = { bill: bill.number, number: row.number, amount: said.total, open: said.open }
  return {
    subject: t(bill.is_firm ? 'bill.subject-invoice' : 'bill.subject-bill', params),
    paragraphs: [t(bill.is_firm ? 'bill.mail-invoice' : 'bill.mail-bill', params), ...howToPay(about)],
    facts: said.facts,
    link: await billLink(about, bill),
    brief: t(bill.is_firm ? 'bill.brief-invoice' : 'bill.brief-bill', params),
  }
}

async function billCredited(about: About): Promise<Message | null> {
  const { t, row } = about
  const memo = (await findBills(about.deps.db, row.request_id)).find(({ id }) => row.once === billOnce(id))
  if (!memo?.credits) return null
  const params = { credit: memo.number, bill: memo.credits }
  return {
    subject: t('bill.subject-credit', params),
    paragraphs: [t('bill.mail-credit', params)],
    facts: [],
    link: await billLink(about, memo),
    brief: t('bill.brief-credit', params),
  }
}

/** None once nothing is owed. */
async function reminder(about: About): Promise<Message | null> {
  const { t, deps, row } = about
  const bill = await findStandingBill(deps.db, row.request_id)
  if (!bill) return null
  const said = await toPay(about, bill)
  if (!said.owes) return null
  const params = { bill: bill.number, amount: said.open }
  return {
    subject: t('bill.subject-reminder', params),
    paragraphs: [t('bill.mail-reminder', params), ...howToPay(about)],
    facts: said.facts,
    link: await billLink(about, bill),
    brief: t('bill.brief-reminder', params),
  }
}

/** The receipt of one payment; none once it was undone. */
async function paymentReceived(about: About): Promise<Message | null> {
  const { t, deps, row, language } = about
  const payments = await findPayments(deps.db, row.request_id)
  const paid = payments.find(({ id, undone_by }) => row.once === paymentOnce(id) && undone_by === null)
  const bill = await findStandingBill(deps.db, row.request_id)
  if (!paid || !bill) return null
  const money = moneyOf(about)
  const said = await toPay(about, bill)
  const params = { bill: bill.number, amount: money(paid.amount) }
  const tip = Number(paid.tip) > 0 ? money(paid.tip) : ''
  return {
    subject: t('bill.subject-payment', params),
    paragraphs: [
      t('bill.mail-payment', params),
      said.owes ? t('bill.mail-payment-left', { amount: said.open }) : t('bill.paid-up'),
      tip && t('bill.tip-thanks', { amount: tip }),
    ].filter(Boolean),
    facts: [
      { term: t('deposit.amount'), value: money(paid.amount) },
      ...(tip ? [{ term: t('bill.tip'), value: tip }] : []),
      { term: t('deposit.day'), value: dayInWords(paid.day, language, true) },
      { term: t('deposit.way'), value: wayInWords(paid.way, t) },
    ],
    link: await billLink(about, bill),
    brief: t('bill.brief-payment', params),
  }
}

async function checkReturned(about: About): Promise<Message | null> {
  const { t, deps, row } = about
  const payments = await findPayments(deps.db, row.request_id)
  const check = payments.find(({ id, is_returned }) => row.once === returnedOnce(id) && is_returned)
  if (!check) return null
  const money = moneyOf(about)
  const bill = await findStandingBill(deps.db, row.request_id)
  const fee = (await findFees(deps.db, row.request_id)).find(({ payment_id }) => payment_id === check.id)
  const params = { bill: bill?.number ?? row.number, amount: money(check.amount) }
  return {
    subject: t('bill.subject-returned', params),
    paragraphs: [
      t('bill.mail-returned', params),
      ...(fee ? [t('bill.mail-returned-fee', { fee: money(fee.amount) })] : []),
      ...howToPay(about),
    ],
    facts: bill ? (await toPay(about, bill)).facts : [],
    link: bill ? await billLink(about, bill) : await pageLink(about),
    brief: t('bill.brief-returned', params),
  }
}

function moneyOf({ business, language }: About) {
  return (amount: string) => moneyInWords(amount, business.currency, language)
}

/** What a bill comes to, and what of it is left. */
async function toPay(about: About, bill: BillRow) {
  const { t, deps, language } = about
  const money = moneyOf(about)
  const { paid, fees, owed } = await findMoney(deps.db, bill.quote_request_id)
  const owes = new Decimal(owed).gt(0)
  const open = money(owes ? owed : cents(0))
  const facts = [
    { term: t('bill.total'), value: money(bill.total) },
    ...(Number(paid) === 0 ? [] : [{ term: t('bill.paid'), value: money(paid) }]),
    ...(Number(fees) === 0 ? [] : [{ term: t('bill.fees'), value: money(fees) }]),
    { term: t('bill.open'), value: open },
    ...(owes ? [{ term: t('bill.due'), value: dayInWords(bill.due, language, true) }] : []),
    ...(bill.order_number ? [{ term: t('bill.order-term'), value: bill.order_number }] : []),
  ]
  return { owes, open, total: money(bill.total), facts }
}

function howToPay({ t, business, language }: About): string[] {
  const { words, link } = business.billing
  return [words[language] || words.en, link && t('bill.pay-at', { link })].filter(Boolean)
}

/** To the bill behind the homeowner's own page; of an address not confirmed by way of the page that confirms it. */
async function billLink(about: About, bill: BillRow) {
  if (about.asksToConfirm) return pageLink(about)
  const words = about.t('bill.see-number', { number: bill.number })
  const own = await linkTo(about, 'own page', words)
  return own && { ...own, address: `${own.address}/bills/${bill.number}` }
}
