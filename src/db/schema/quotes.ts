import type { Generated, GeneratedAlways, Insertable } from 'kysely'
import type { Told } from '../../estimate/job/bed.ts'
import type { Terms } from '../../estimate/job/terms.ts'
import type { PriceLine } from '../../estimate/price/price-lines.ts'
import type { TaxDue } from '../../estimate/tax/tax-on.ts'
import type { Choices } from '../../estimate/understood/choices.ts'
import type { JobUnderstood } from '../../estimate/understood/format.ts'
import type { UnitName } from '../../estimate/units/units.ts'
import type { InBoth, Language } from '../../language/language.ts'
import type { JsonColumn, OptionalJson } from './columns.ts'
import type { Conditions } from './payments.ts'

/** The number that a firm has for what a request became. */
export interface PurchaseOrderTable {
  quote_request_id: number
  number: string
  told_at: string
}

/**
 * `understood` is what the price was worked out from: the beds as measured, or as told where the visit was left out, as
 * `job` shows them. Null where it was never kept.
 */
export interface QuoteTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  revision: number
  rate_table_id: number
  job: JsonColumn<Told>
  understood: JsonColumn<JobUnderstood | null>
  terms: JsonColumn<Terms>
  tax: JsonColumn<TaxDue> | null
  note: string
  /** Why the price is what it is, as homeowners read it; null on quotes from before that was said. */
  why: JsonColumn<InBoth | null>
  /** What the homeowner may choose, and in digits what was taken of it (see takenOf); null where there is no choice. */
  choices: OptionalJson<Choices>
  picked: Generated<string | null>
  /** A deposit and time to cancel; null where there is none of it. */
  conditions: OptionalJson<Conditions>
  total: string
  currency: string
  labor_hours: string
  labor_hours_worked_out: string
  holds_until: string
  made_by: number
  made_at: string
}

/**
 * What a quote comes to with one combination of its choices, as it was offered: never changed. Accepting one puts its
 * figures and lines into the quote, which the database checks.
 */
export interface QuoteVariantTable {
  quote_id: number
  picks: string
  job: JsonColumn<Told>
  understood: JsonColumn<JobUnderstood>
  tax: JsonColumn<TaxDue> | null
  total: string
  labor_hours: string
  labor_hours_worked_out: string
  lines: JsonColumn<StoredLine[]>
}

/** That the owner gave the booking link on by hand; mails say it themselves. */
export interface QuoteSentTable {
  quote_id: number
  sent_at: string
  sent_by: number
}

/** That somebody who had the booking link read it, as far as the page could tell. */
export interface QuoteSeenTable {
  quote_id: number
  seen_at: string
}

/** `worked_out` is null on a line that the contractor added; an `amount` that differs from it has a `reason`. */
export interface QuoteLineTable {
  id: GeneratedAlways<number>
  quote_id: number
  position: number
  kind: PriceLine['kind'] | 'other' | 'tax'
  slug: string | null
  description: string | null
  quantity: string | null
  unit: UnitName | null
  rate: string | null
  worked_out: string | null
  amount: string
  reason: string | null
}

/** What of a quote's line falls onto a stop of its job, counted from 0; never changed, and adds up to the line. */
export interface QuoteLineShareTable {
  quote_id: number
  position: number
  stop: number
  amount: string
}

export type StoredLine = Omit<Insertable<QuoteLineTable>, 'quote_id'>

/** A certificate by which one job is without tax; `until` is its last day. */
export interface JobCertificateTable {
  quote_request_id: number
  number: string
  until: string | null
  file_id: number | null
  saved_at: string
  saved_by: number
}

export interface AcceptanceTable {
  quote_id: number
  typed_name: string
  accepted_at: string
  /** Whose phone of the staff it was accepted on; null on one's own. */
  taken_by: Generated<number | null>
}

/** What was accepted, as it was shown, with the SHA-256 of it in hexadecimal, which the database checks. */
export interface AcceptedTextTable {
  quote_id: number
  text: string
  language: Language
  digest: string
  /** What it was before the text was erased. */
  digest_before: Generated<string | null>
}

/** That a change to accepted work was declined, or taken back by the staff, for good: the work goes on as it was accepted last. */
export interface ChangeDeclinedTable {
  quote_id: number
  declined_at: string
  withdrawn_by: Generated<number | null>
}
