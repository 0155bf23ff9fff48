import type { Business } from '../business/queries.ts'
import { PAYMENT_WAYS } from '../db/schema/payments.ts'
import type { Deps } from '../deps.ts'
import { t, translator } from '../language/catalogue.ts'
import { dayInWords, momentInWords, shortDate } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { findCredit } from '../payments/owed.ts'
import { findPayments } from '../payments/queries.ts'
import { findFees, takesNoChecks } from '../payments/returned-check.ts'
import { wayInWords } from '../payments/way-words.ts'
import { findBills } from './queries.ts'
import { findReminders } from './remind.ts'
import { findMoney } from './standing.ts'

/** The money of a request that was billed, as the staff see it and note more of it. */
export interface MoneyView {
  bills: { number: string; words: string }[]
  /** 'Still to pay: $120.00', or what is to be given back. */
  stands: string
  owes: boolean
  /** What was paid too much, '25.00'; null where nothing was. */
  over: string | null
  /** Whether a bill stands, so that money for it can be noted. */
  isBilled: boolean
  rows: { id: number; words: string; mayUndo: boolean; mayReturn: boolean }[]
  fees: { id: number; words: string }[]
  nth: number
  /** What is owed, as it stands in the form. */
  amount: string
  today: string
  returnedFee: string
  noChecks: boolean
  /** 'Reminded 2 times, last on March 3 at 9 AM', or ''. */
  reminded: string
  reminders: number
  ways: { value: string; label: string }[]
  waysBack: { value: string; label: string }[]
}

const KINDS = { deposit: 'Deposit', payment: 'Payment', refund: 'Given back' }

/** 'Overdue since Thu, Mar 5: 3 days', or '' until its day is over. */
export function overdueInWords(due: string, today: string): string {
  if (due >= today) return ''
  const { days } = Temporal.PlainDate.from(due).until(today)
  return `Overdue since ${shortDate(due, 'en')}: ${days === 1 ? '1 day' : `${days} days`}`
}

/** Null of a request that was never billed. */
export async function viewMoney(
  deps: Deps,
  business: Business,
  quoteRequestId: number,
): Promise<MoneyView | null> {
  const { db } = deps
  const bills = await findBills(db, quoteRequestId)
  if (bills.length === 0) return null
  const money = (amount: string) => moneyInWords(amount, business.currency, 'en')
  const isBilled = bills.some(({ kind, credited_by }) => kind === 'bill' && credited_by === null)
  const { owed } = await findMoney(db, quoteRequestId)
  const over = owed.startsWith('-') ? owed.slice(1) : null
  const owes = isBilled && new Decimal(owed).gt(0)
  const due = bills.find(({ kind, credited_by }) => kind === 'bill' && credited_by === null)?.due
  const late = due ? overdueInWords(due, dayOf(deps.now(), business.time_zone)) : ''
  const payments = await findPayments(db, quoteRequestId)
  const credit = await findCredit(db, quoteRequestId)
  const reminders = await findReminders(db, quoteRequestId)
  const plainWays = PAYMENT_WAYS.map(value => ({ value, label: t('en', `deposit.way-${value}`) }))
  return {
    bills: bills.map(({ number, kind, total, day, credited_by, credits }) => ({
      number,
      words: [
        money(total),
        dayInWords(day, 'en', true),
        kind === 'bill' ? credited_by && `canceled by ${credited_by}` : `cancels ${credits}`,
      ]
        .filter(Boolean)
        .join(', '),
    })),
    stands: owes
      ? [`Still to pay: ${money(owed)}`, late].filter(Boolean).join('. ')
      : over
        ? `Paid too much: ${money(over)}`
        : isBilled
          ? 'Paid in full.'
          : '',
    ...{ owes, over, isBilled },
    rows: payments.map(row => ({
      id: row.id,
      words: paymentInWords(row, money),
      mayUndo: row.undoes === null && row.undone_by === null,
      mayReturn:
        row.undoes === null && row.undone_by === null && row.way === 'check' && row.kind !== 'refund',
    })),
    fees: (await findFees(db, quoteRequestId)).map(({ id, amount, day }) => ({
      id,
      words: `Returned check fee: ${money(amount)}, ${dayInWords(day, 'en', true)}`,
    })),
    nth: payments.length + 1,
    amount: owes ? owed : '',
    today: dayOf(deps.now(), business.time_zone),
    returnedFee: business.billing.returnedFee,
    noChecks: await takesNoChecks(db, quoteRequestId),
    reminded: remindedInWords(reminders, business.time_zone),
    reminders: reminders.length,
    ways: [
      ...plainWays,
      ...(Number(credit) > 0 ? [{ value: 'credit', label: `Their credit: ${money(credit)}` }] : []),
    ],
    waysBack: [...plainWays, { value: 'credit', label: 'Not back: keep it as their credit' }],
  }
}

function remindedInWords(reminders: string[], zone: string): string {
  const last = reminders.at(-1)
  if (!last) return ''
  const times = reminders.length === 1 ? 'once' : `${reminders.length} times`
  return `Reminded ${times}, last ${momentInWords(last, zone, 'en')}.`
}

type PaymentRow = Awaited<ReturnType<typeof findPayments>>[number]

function paymentInWords(row: PaymentRow, money: (amount: string) => string): string {
  const { kind, amount, tip, day, way, undoes, returned, made_by_name } = row
  const isCredit = way === 'credit'
  const what = isCredit ? (kind === 'refund' ? 'Kept as credit' : 'Paid from credit') : KINDS[kind]
  const named = returned ? 'Check returned' : undoes ? `${what} undone` : what
  return [
    `${named}: ${money(cents(amount))}`,
    Number(tip) === 0 ? '' : `and a tip of ${money(tip)}`,
    isCredit ? '' : wayInWords(way, translator('en')).toLowerCase(),
    dayInWords(day, 'en', true),
    `noted by ${made_by_name}`,
  ]
    .filter(Boolean)
    .join(', ')
}
