import type { Generated, GeneratedAlways } from 'kysely'
import type { JsonColumn } from './columns.ts'

/**
 * A row that turned out to be the same as another: `joined_to` points there, and `head_id`, kept by a trigger, says
 * whom all of its group lead to, itself where it is joined to nobody. No other key changes by that.
 */
export interface Joinable {
  joined_to: Generated<number | null>
  head_id: GeneratedAlways<number>
}

/** A customer as one request gave it; see places/recognition.ts for the keys. */
export interface CustomerTable extends Joinable {
  id: GeneratedAlways<number>
  name: string
  phone: string
  email: string
  /** When whoever reads what is mailed there said so; until then it may be anybody's. */
  email_confirmed_at: Generated<string | null>
  /** Since when only what concerns a booked job is sent. */
  quiet_since: Generated<string | null>
  phone_key: Generated<string | null>
  email_key: Generated<string | null>
  /** By which rules and for which country the keys were made; '' where they weren't yet. */
  keyed_as: Generated<string>
  /** Since when checks of theirs aren't taken; the group's newest counts. */
  no_checks_since: Generated<string | null>
  /** The file that brought them, where one did. */
  moved_in_id: Generated<number | null>
  erased_at: Generated<string | null>
}

/** What is agreed with a customer that is a firm or an association; `exempt_until` is the last day of the certificate. */
export interface FirmTable {
  customer_id: number
  needs_order: boolean
  days_to_pay: number | null
  bill_name: string
  bill_email: string
  bill_address: string
  exempt_number: string
  exempt_until: string | null
  rules: string
  /** The papers that they ask for; of those that were taken out nothing is sent. */
  paper_ids: Generated<number[]>
  certificate_file_id: Generated<number | null>
  saved_at: string
  saved_by: number
}

export type FileKind = 'application/pdf' | 'image/jpeg'

/** A file as it is kept, a picture made anew; never changed. */
export interface KeptFileTable {
  id: GeneratedAlways<number>
  kind: FileKind
  bytes: Buffer
  made_at: string
  made_by: number
}

/** A paper that firms ask for, under a name that stands once. */
export interface PaperTable {
  id: GeneratedAlways<number>
  name: string
  file_id: number
  removed_at: Generated<string | null>
}

/**
 * A file of customers, places and beds. The text is kept until it is taken in; `columns` says which of its columns, counted
 * from 0, is which of ours. How many rows of each kind came of it is known from then on.
 */
export interface MovingInTable {
  id: GeneratedAlways<number>
  file_name: string
  content_hash: string
  file: string | null
  columns: JsonColumn<Record<string, number>>
  made_at: string
  made_by: number
  taken_in_at: Generated<string | null>
  taken_in_by: Generated<number | null>
  customers: Generated<number>
  places: Generated<number>
  beds: Generated<number>
  taken_back_at: Generated<string | null>
  taken_back_by: Generated<number | null>
}

/** What somebody of the staff decided about two customers, or two places; kept when it was undone. */
export interface DecisionTable {
  id: GeneratedAlways<number>
  one_id: number
  other_id: number
  verb: 'joined' | 'kept apart'
  at: string
  account_id: number
  undone_at: Generated<string | null>
  undone_by: Generated<number | null>
}
