import type { Business } from '../business/queries.ts'
import { PAYMENT_WAYS } from '../db/schema/payments.ts'
import type { Deps } from '../deps.ts'
import { t, translator } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import type { RequestRow } from '../requests/queries.ts'
import { OVER } from '../requests/take-up-again.ts'
import { findPayments, findSettled, heldOf } from './queries.ts'
import { depositStanding } from './standing.ts'
import { wayInWords } from './way-words.ts'

/** Money of a request as the staff see it. */
export interface PaymentsView {
  /** 'Deposit: $100.00, due since March 3.'; '' where none is asked for. */
  standing: string
  isDue: boolean
  rows: { id: number; words: string; mayUndo: boolean }[]
  held: string
  /** The number that the next payment has, and what it may be. */
  next: { nth: number; amount: string; today: string } | null
  today: string
  /** Whether anything is held. */
  isHeld: boolean
  /** Whether it has ended with something held that isn't settled. */
  toSettle: boolean
  ways: { value: string; label: string }[]
}

const KINDS = { deposit: 'Deposit', payment: 'Payment', refund: 'Given back' }

/** Null where no deposit is asked for and no money ever changed hands. */
export async function viewPayments(
  deps: Deps,
  business: Business,
  { id, stage }: Pick<RequestRow, 'id' | 'stage'>,
  firstDay: string | undefined,
): Promise<PaymentsView | null> {
  const quote = await findAcceptedQuote(deps.db, id)
  const payments = await findPayments(deps.db, id)
  const held = heldOf(payments)
  const standing = quote ? depositStanding(quote, held, firstDay, business, deps.now()) : null
  if (!standing && payments.length === 0) return null
  const settled = await findSettled(deps.db, id)
  const money = (amount: string) => moneyInWords(amount, business.currency, 'en')
  const missing = new Decimal(standing?.asked ?? 0).minus(held)
  const isOver = OVER.includes(stage)
  const dueWords = standing?.due ? `due ${dayInWords(standing.due, 'en')}` : 'due before the work'
  const stands = standing && `Deposit: ${money(standing.asked)}, ${missing.lte(0) ? 'received' : dueWords}.`
  const settledWords = settled && `Settled: ${money(settled.kept)} kept, ${money(settled.back)} given back.`
  return {
    standing: [stands, settledWords].filter(Boolean).join(' '),
    isDue: !isOver && (standing?.isDue ?? false),
    rows: payments.map(({ id, kind, amount, day, way, undoes, undone_by, made_by_name }) => ({
      id,
      words: [
        `${undoes ? `${KINDS[kind]} undone` : KINDS[kind]}: ${money(amount)}`,
        wayInWords(way, translator('en')).toLowerCase(),
        dayInWords(day, 'en', true),
        `noted by ${made_by_name}`,
      ].join(', '),
      mayUndo: undoes === null && undone_by === null && !settled,
    })),
    held: money(held),
    today: dayOf(deps.now(), business.time_zone),
    isHeld: new Decimal(held).gt(0),
    next: isOver
      ? null
      : {
          nth: payments.length + 1,
          amount: missing.gt(0) ? missing.toFixed(2) : '',
          today: dayOf(deps.now(), business.time_zone),
        },
    toSettle: isOver && Number(held) > 0 && !settled,
    ways: PAYMENT_WAYS.map(value => ({ value, label: t('en', `deposit.way-${value}`) })),
  }
}
