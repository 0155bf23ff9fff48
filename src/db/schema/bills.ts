import type { Generated, GeneratedAlways } from 'kysely'
import type { Terms } from '../../estimate/job/terms.ts'
import type { TaxDue } from '../../estimate/tax/tax-on.ts'
import type { InBoth, Language } from '../../language/language.ts'
import type { JsonColumn, OptionalJson } from './columns.ts'
import type { QuoteLineTable } from './quotes.ts'

/** What bills say, and what the owner wants around them. */
export interface BillingSettings {
  /** How to pay, in the owner's words. */
  words: InBoth
  /** Where a bill can be paid, an https address; '' for none. */
  link: string
  /** What a returned check costs its customer. */
  returnedFee: string
  /** From how much a year on what a contractor is paid is reported. */
  reportFrom: string
  /** How many years bills, certificates and hours are kept. */
  keepYears: number
}

/** Whom a bill is made out to; '' where something isn't known. */
export interface BillTo {
  name: string
  address: string
  email: string
}

/** What was done of a line of the accepted price, at a stop of it where it is shared out: a share from 0 to 1. */
export interface ShareDone {
  position: number
  stop: number | null
  share: string
}

/** What a bill's taxes are called, as they stand in its tax. */
export interface TaxNames {
  first: InBoth
  second: InBoth | null
}

/**
 * A bill, or a credit memo that undoes one; never changed. `year`, `nth` and `number` are given by a trigger. `area` is
 * the ZIP or postcode that the tax goes by; `first_day` and `last_day` are those worked.
 */
export interface BillTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  kind: 'bill' | 'credit memo'
  year: GeneratedAlways<number>
  nth: GeneratedAlways<number>
  number: GeneratedAlways<string>
  day: string
  due: string
  quote_id: number
  rate_table_id: number
  terms: JsonColumn<Terms>
  tax: JsonColumn<TaxDue> | null
  tax_names: JsonColumn<TaxNames>
  tax_note: JsonColumn<InBoth> | null
  is_firm: boolean
  days_to_pay: number | null
  order_number: string
  bill_to: JsonColumn<BillTo>
  place: string
  area: string
  first_day: string | null
  last_day: string | null
  /** What was done of the lines where not all was; null of a whole job. */
  part: OptionalJson<ShareDone[]>
  language: Language
  currency: string
  total: string
  undoes: Generated<number | null>
  reason: string
  made_at: string
  made_by: number
}

/** The last number of a year that a bill, or a credit memo, has. */
export interface BillYearTable {
  kind: BillTable['kind']
  year: number
  last: number
}

/** A line of a bill as it reads, and how much of it. */
export interface BillLineTable {
  bill_id: number
  position: number
  kind: QuoteLineTable['kind']
  slug: string | null
  words: JsonColumn<InBoth>
  quantity: OptionalJson<InBoth>
  amount: string
}

/** What of a bill's line falls onto a stop of its job, counted from 0. */
export interface BillLineShareTable {
  bill_id: number
  position: number
  stop: number
  amount: string
}
