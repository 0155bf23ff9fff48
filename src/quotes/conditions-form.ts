import { amountTyped, readAmountAsked } from '../business/amount-asked.ts'
import type { Business } from '../business/queries.ts'
import type { Conditions } from '../db/schema/payments.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { amountInWords, amountOf, depositOf } from './conditions.ts'

const MOST_DAYS = 60

/** Reads what a price asks for before the work; null where nothing. */
export function readConditions(fields: FormFields, { deposits }: Business): Conditions | null {
  const typed = fields.text('depositAmount')
  const asked = readAmountAsked(typed)
  if (typed !== '' && asked === null)
    fields.fault('depositAmount', 'Give a percentage, such as 25%, or an amount, such as 100.')
  const daysBefore = fields.wholeNumber('depositDays', {
    most: MOST_DAYS,
    outside: `Give up to ${MOST_DAYS} days.`,
    unreadable: 'Give a number of days, such as 7.',
  })
  const { en, es } = deposits.notice
  if (fields.tick('cancelNotice') && en === '')
    fields.fault('cancelNotice', 'Write your notice first, under Settings, Beside your prices.')
  const deposit = asked && { ...asked, cap: deposits.cap, daysBefore: daysBefore || null }
  const notice = fields.tick('cancelNotice') && en !== '' ? { en, es } : null
  const waits = fields.tick('waits')
  return deposit || notice || waits ? { deposit, notice, waits } : null
}

/** That a deposit is over the owner's own cap; undefined where it is not, or there is no total yet. */
export function overCap(conditions: Conditions | null, total: string, currency: string): string | undefined {
  const deposit = conditions?.deposit
  if (!deposit?.cap || !amountOf(deposit, total).gt(amountOf(deposit.cap, total))) return undefined
  const most = moneyInWords(depositOf(conditions, total), currency, 'en')
  return `Your cap is ${amountInWords(deposit.cap, currency, 'en')}. Of this price that’s ${most}.`
}

/** Conditions as the fields of the form. */
export function conditionsTyped(conditions: Conditions | null): Typed {
  const { deposit, notice, waits } = conditions ?? {}
  return {
    depositAmount: amountTyped(deposit),
    depositDays: deposit?.daysBefore ? String(deposit.daysBefore) : '',
    ...(notice ? { cancelNotice: 'yes' } : {}),
    ...(waits ? { waits: 'yes' } : {}),
  }
}

/** Whether two ask for the same, whatever the order of their keys. */
export function sameConditions(one: Conditions | null, other: Conditions | null): boolean {
  return JSON.stringify(conditionsTyped(one)) === JSON.stringify(conditionsTyped(other))
}

/** What the form of a quote asks of them. */
export interface ConditionsAsked {
  open: boolean
  /** '10%, $45.00 of this price' */
  cap: string | null
  hasNotice: boolean
  /** What the deposit comes to, '$103.21'. */
  deposit: string | null
}

export function conditionsAsked(
  { deposits, currency }: Business,
  conditions: Conditions | null,
  total: string | null,
  errors: Errors,
): ConditionsAsked {
  const names = ['depositAmount', 'depositDays', 'cancelNotice']
  return {
    open: conditions !== null || names.some(name => errors[name]),
    cap: deposits.cap && amountInWords(deposits.cap, currency, 'en'),
    hasNotice: deposits.notice.en !== '',
    deposit:
      conditions?.deposit && total !== null
        ? moneyInWords(depositOf(conditions, total), currency, 'en')
        : null,
  }
}
