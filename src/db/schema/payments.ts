import type { Generated, GeneratedAlways } from 'kysely'
import type { InBoth } from '../../language/language.ts'

/** An amount of money, or a share ('0.25') of a total. */
export interface Amount {
  by: 'share' | 'money'
  value: string
}

/** What the owner allows of deposits; the notice is what homeowners read of their right to cancel, '' for none. */
export interface DepositSettings {
  cap: Amount | null
  /** Whether a day can be booked while the deposit is due. */
  holdsDay: boolean
  notice: InBoth
}

/** What a price asks for before the work, and the time it gives to cancel. */
export interface Conditions {
  /** At most the cap of then; due with the acceptance, or so many days before the work. */
  deposit: (Amount & { cap: Amount | null; daysBefore: number | null }) | null
  notice: InBoth | null
  /** Whether no work begins before the fourth business day. */
  waits: boolean
}

/** Money that changed hands: below zero what was given back, or what undoes another row. Only ever added. */
export interface PaymentTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  /** Which of its request it is, from 1 on: by that a repeat is known. */
  nth: number
  kind: 'deposit' | 'payment' | 'refund'
  amount: string
  /** Given beside the amount; pays nothing. */
  tip: Generated<string>
  day: string
  /** 'credit' is what a customer keeps with the business, or pays from that. */
  way: PaymentWay | 'credit'
  undoes: Generated<number | null>
  /** Whether it undoes a check that the bank returned. */
  returned: Generated<boolean>
  made_at: string
  made_by: number
}

export const PAYMENT_WAYS = ['cash', 'check', 'card', 'transfer', 'other'] as const

export type PaymentWay = (typeof PAYMENT_WAYS)[number]

/** What a customer owes for a returned check, or below zero that it was let go. */
export interface FeeTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  /** The returned check. */
  payment_id: number
  amount: string
  day: string
  undoes: Generated<number | null>
  made_at: string
  made_by: number
}

/** What became of the deposit of a request that ended. */
export interface DepositSettledTable {
  quote_request_id: number
  kept: string
  back: string
  settled_at: string
  settled_by: number
}
