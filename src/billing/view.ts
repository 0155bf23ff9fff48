import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { type Key, type Translate, translator } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { findPayments } from '../payments/queries.ts'
import { wayInWords } from '../payments/way-words.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { type PriceByStop, sortByStop } from '../quotes/stop-shares.ts'
import { type BillRow, findBillLines } from './queries.ts'
import { findMoney, type MoneyStanding } from './standing.ts'

/** A bill or a credit memo in words of one language, as its page and its paper show it. */
export interface BillView {
  number: string
  heading: string
  /** Where, when, by which order and until when, a line each. */
  about: string[]
  /** Whom it is made out to, a line each. */
  to: string[]
  lines: { position: number; label: string; note: string | null; amount: string }[]
  byStop: PriceByStop | null
  total: string
  taxNote: string | null
  /** What came in, fees, and what is left to pay; none where it doesn't stand. */
  sums: { label: string; amount: string; isLast: boolean }[]
  /** How it stands in a sentence, '' where the sums say it. */
  stands: string
  payments: string[]
  /** How to pay, in the owner's words, and the address to pay at; '' where there is none, or nothing is owed. */
  howTo: string
  payLink: string
}

/** What a bill shows; `language` is the reader's. */
export async function viewBill(
  deps: Deps,
  business: Business,
  bill: BillRow,
  language: Language,
): Promise<BillView> {
  const say = translator(language, business.country)
  const money = (amount: string) => moneyInWords(amount, bill.currency, language)
  const { lines, shares } = await findBillLines(deps.db, bill.id)
  const shown = lines.map(line => ({
    position: line.position,
    label: line.words[language],
    note: line.quantity?.[language] || null,
    amount: money(line.amount),
  }))
  const isStanding = bill.kind === 'bill' && bill.credited_by === null
  const standing = isStanding ? await findMoney(deps.db, bill.quote_request_id) : null
  const owes = standing !== null && new Decimal(standing.owed).gt(0)
  const { words, link } = business.billing
  const today = dayOf(deps.now(), business.time_zone)
  return {
    number: bill.number,
    heading: say(headingOf(bill), { number: bill.number }),
    about: aboutInWords(bill, language, say),
    to: [bill.bill_to.name, ...bill.bill_to.address.split('\n')].filter(Boolean),
    lines: shown,
    byStop: sortByStop(await jobOf(deps, bill), shown, shares, bill.currency, language),
    total: money(bill.total),
    taxNote: bill.tax_note?.[language] || null,
    sums: standing ? sumsOf(standing, money, say) : [],
    stands: standsInWords(bill, standing, { money, say, today, language }),
    payments: isStanding ? await paymentsInWords(deps, bill, language) : [],
    howTo: owes ? words[language] || words.en : '',
    payLink: owes ? link : '',
  }
}

function headingOf({ kind, is_firm }: BillRow): Key {
  if (kind === 'credit memo') return 'bill.title-credit'
  return is_firm ? 'bill.title-invoice' : 'bill.title-bill'
}

async function jobOf({ db }: Deps, bill: BillRow) {
  const quote = await findAcceptedQuote(db, bill.quote_request_id)
  return quote?.id === bill.quote_id ? quote.job : { stops: [] }
}

function aboutInWords(bill: BillRow, language: Language, say: Translate): string[] {
  const day = (iso: string) => dayInWords(iso, language, true)
  const { kind, first_day, last_day, days_to_pay, order_number } = bill
  const worked =
    first_day === null || last_day === null
      ? ''
      : first_day === last_day
        ? say('bill.worked', { day: day(first_day) })
        : say('bill.worked-from', { first: day(first_day), last: day(last_day) })
  const due =
    kind === 'credit memo'
      ? ''
      : days_to_pay === null || days_to_pay === 0
        ? say('bill.due-now')
        : say('bill.due-on', { day: day(bill.due) })
  return [
    say('bill.of-request', { number: bill.request_number }),
    say('bill.day', { day: day(bill.day) }),
    bill.place && say('bill.where', { at: bill.place }),
    worked,
    order_number && say('bill.order', { number: order_number }),
    kind === 'bill' && days_to_pay ? say('bill.net', { days: days_to_pay }) : '',
    due,
    bill.credits ? say('bill.undoes', { number: bill.credits }) : '',
    bill.reason && say('bill.reason', { reason: bill.reason }),
  ].filter(line => line !== '')
}

function sumsOf(
  { paid, fees, owed }: MoneyStanding,
  money: (amount: string) => string,
  say: Translate,
): BillView['sums'] {
  const less = (amount: string) => money(new Decimal(amount).negated().toFixed(2))
  return [
    ...(Number(fees) === 0 ? [] : [{ label: say('bill.fees'), amount: money(fees), isLast: false }]),
    ...(Number(paid) === 0 ? [] : [{ label: say('bill.paid'), amount: less(paid), isLast: false }]),
    { label: say('bill.open'), amount: money(owed.startsWith('-') ? '0.00' : owed), isLast: true },
  ]
}

function standsInWords(
  bill: BillRow,
  standing: MoneyStanding | null,
  { money, say, today, language }: StandsBy,
): string {
  if (bill.credited_by) return say('bill.undone', { number: bill.credited_by })
  if (!standing) return ''
  const owed = new Decimal(standing.owed)
  if (owed.isZero()) return say('bill.paid-up')
  if (owed.lt(0)) return say('bill.over', { amount: money(owed.negated().toFixed(2)) })
  // What is due at once isn't called late the next morning.
  const isLate = Boolean(bill.days_to_pay) && bill.due < today
  return isLate ? say('bill.overdue', { day: dayInWords(bill.due, language, true) }) : ''
}

interface StandsBy {
  money: (amount: string) => string
  say: Translate
  today: string
  language: Language
}

async function paymentsInWords({ db }: Deps, bill: BillRow, language: Language): Promise<string[]> {
  const say = translator(language)
  return (await findPayments(db, bill.quote_request_id)).map(row => {
    const amount = moneyInWords(new Decimal(row.amount).abs().toFixed(2), bill.currency, language)
    const params = {
      amount,
      day: dayInWords(row.day, language, true),
      way: wayInWords(row.way, say).toLowerCase(),
    }
    if (row.returned) return say('bill.payment-returned', params)
    if (row.undoes !== null) return say('bill.payment-undone', params)
    if (row.way === 'credit')
      return say(row.kind === 'refund' ? 'bill.credit-kept' : 'bill.credit-used', params)
    return say(row.kind === 'refund' ? 'bill.given-back' : 'bill.payment', params)
  })
}
