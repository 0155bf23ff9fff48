import type { ColumnType, Generated, GeneratedAlways, Insertable } from 'kysely'
import type { Ballpark } from '../estimate/ballpark/ballpark.ts'
import type { BedTold, Told } from '../estimate/job/bed.ts'
import type { Terms } from '../estimate/job/terms.ts'
import type { PriceLine } from '../estimate/price/price-lines.ts'
import type { StoredTable } from '../estimate/table/complete-table.ts'
import type { TaxDue } from '../estimate/tax/tax-on.ts'
import type { Choices } from '../estimate/understood/choices.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import type { StoredBeds } from '../estimate/understood/stored.ts'
import type { UnitName } from '../estimate/units/units.ts'
import type { Reason } from '../junk/score.ts'
import type { InBoth, Language } from '../language/language.ts'
import type { Json } from './json.ts'

/** A jsonb column: reads as the parsed value, and is written through `json()` only. */
type JsonColumn<T> = ColumnType<T, Json<T> | Extract<T, null>, Json<T> | Extract<T, null>>

/** The same where it may be left out, and is null then. */
type OptionalJson<T> = ColumnType<T | null, Json<T> | null | undefined, Json<T> | null>

export type Role = 'owner' | 'office' | 'helper'
/** The roles that the owner gives to others. */
export type GivenRole = Exclude<Role, 'owner'>
export type Units = 'us' | 'metric'

/** Whoever has left keeps the row that history points at, with `ended_at` set. An owner is always left. */
export interface AccountTable {
  id: GeneratedAlways<number>
  email: string
  name: string
  role: Role
  password_hash: string
  made_at: string
  ended_at: Generated<string | null>
  /** In which they signed in last, and get mail. */
  language: Generated<'en' | 'es'>
}

/** Where somebody is signed in: until `ends_at`, and no longer than `idle_days` without being used. */
export interface SessionTable {
  /** What pages call it by: its secret's hash never leaves the store. */
  id: GeneratedAlways<number>
  secret_hash: string
  account_id: number
  made_at: string
  seen_at: string
  ends_at: string
  idle_days: Generated<number>
  /** When its password was typed last; null where it came by a link. */
  proved_at: Generated<string | null>
  /** As 'Firefox', and the system it runs on; null where it didn't tell. */
  browser: Generated<string | null>
  system: Generated<string | null>
}

export interface SignInFailureTable {
  who_hash: string
  failures: number
  last_at: string
}

/**
 * The one link of an account at which a new password can be chosen; it goes when it is used. Of one that goes by mail the
 * nonce that it is made from.
 */
export interface PasswordResetTable {
  account_id: number
  token_hash: string
  nonce: Generated<string | null>
  made_at: string
  ends_at: string
}

/** Somebody who is asked to help, by a link; the row goes when it is used or taken back. `email` is '' where the link is only shown. */
export interface InvitationTable {
  id: GeneratedAlways<number>
  name: string
  email: string
  role: Generated<GivenRole>
  language: 'en' | 'es'
  token_hash: string
  nonce: string
  made_at: string
  ends_at: string
  made_by: number
}

/** That somebody of the staff got another role, and from whom; never changed. */
export interface RoleChangeTable {
  id: GeneratedAlways<number>
  account_id: number
  was: Role
  becomes: Role
  made_at: string
  made_by: number
}

/**
 * The app that makes somebody's codes. Being set up while `on_at` is null; `last_step` is the step of 30 seconds since 1970 whose code was used last.
 */
export interface AuthenticatorTable {
  account_id: number
  sealed_secret: string
  made_at: string
  on_at: Generated<string | null>
  last_step: Generated<number>
}

/** What proves somebody besides the password by a device of theirs; `transports` is how browsers reach it, parted by spaces. */
export interface PasskeyTable {
  id: GeneratedAlways<number>
  account_id: number
  credential_id: string
  /** Its COSE key, base64url. */
  public_key: string
  counter: number
  transports: string
  name: string
  made_at: string
  used_at: Generated<string | null>
}

/** A challenge that a passkey answered, so that it is never taken again; the row goes once the challenge is over anyway. */
export interface PasskeyChallengeTable {
  challenge_hash: string
  ends_at: string
}

/** A code that signs in once in place of one of the app or a passkey; the row goes when it is used. */
export interface RecoveryCodeTable {
  account_id: number
  code_hash: string
}

/** The one link of an account that signs in; it goes when it is used. */
export interface SignInLinkTable {
  account_id: number
  token_hash: string
  nonce: string
  made_at: string
  ends_at: string
}

/**
 * One row at most: the business that this installation serves. `country` is an ISO 3166 code, ZZ where it is none of
 * those that we know; `working_days` are ISO weekdays, Monday 1.
 */
export interface BusinessTable {
  only: Generated<boolean>
  name: string
  phone: string
  email: string
  units: Units
  country: string
  currency: string
  time_zone: string
  labor_hours_a_day: string
  /** The hours of everybody who works, by weekday, Monday first; null where one number a day counts. */
  weekday_hours: string[] | null
  quote_holds_days: number
  answer_within_days: number
  working_days: number[]
  /** Until so many days before it homeowners can move the work themselves. */
  move_until_days: Generated<number>
  /** How many days ahead of the work homeowners choose a day. */
  notice_days: Generated<number>
  /** The public holidays that are kept, by their keys. */
  holidays: Generated<string[]>
  /** Whether the day that a homeowner chooses is booked, or asked for and confirmed; or whether they choose a week. */
  day_choice: Generated<'day' | 'week' | 'ask'>
  /** How many days before a week that was chosen its day is said at the latest. */
  say_day_before: Generated<number>
  /** Whether work that fits may be booked on a morning or an afternoon. */
  half_days: Generated<boolean>
  /** Whether days with work near come first where homeowners choose. */
  near_first: Generated<boolean>
  /** What is taken off where a homeowner chooses a day with work near; null where nothing. */
  near_discount: OptionalJson<Amount>
  visit_minutes: Generated<number>
  /** Visits begin and end within these hours of the day. */
  visit_from_hour: Generated<number>
  visit_to_hour: Generated<number>
  /** The origins of the sites that may show homeowners' pages in a frame. */
  sites: Generated<string[]>
  /** How many photos a homeowner may send with a request; none at 0. */
  photos_each: Generated<number>
  /** How much all photos of homeowners may take up. */
  photos_megabytes: Generated<number>
  /** Where mail on paper reaches it; stands in what sells. */
  postal_address: Generated<string>
  /** What papers say of the license; '' for nothing. */
  license_line: Generated<string>
  logo_file_id: number | null
  /** After how many months photos go, once the job is paid or the request ended. */
  photos_months: Generated<number>
  /** What homeowners are told beside a price, in the owner's words. */
  answers: ColumnType<Record<string, InBoth>, Json<Record<string, InBoth>> | undefined>
  /** Whether homeowners see the rates per unit in a price. */
  show_rates: Generated<boolean>
  deposits: ColumnType<DepositSettings, Json<DepositSettings> | undefined>
  billing: ColumnType<BillingSettings, Json<BillingSettings> | undefined>
  keeping: ColumnType<KeepingSettings, Json<KeepingSettings> | undefined>
}

/** For how long what is known of people is kept, beside the months of photos and the years of bills. */
export interface KeepingSettings {
  /** After so many months a request that came to nothing is erased. */
  requestsMonths: number
  /** Which messages went out, and when. */
  messagesMonths: number
  /** Guesses at passwords, counted. */
  guessesDays: number
  /** A file of customers that waits to be taken in. */
  filesDays: number
}

export interface RateTableTable {
  id: GeneratedAlways<number>
  version: number
  body: JsonColumn<StoredTable>
  made_at: string
  made_by: number
  /** Null: at once. Else the moment at which its first day begins where the business is. */
  in_force_from: Generated<string | null>
}

/** A version that was called off while it waited for its day. */
export interface RateTableCalledOffTable {
  rate_table_id: number
  called_off_at: string
  called_off_by: number
}

/** One row at most, none before the first change: it goes up with each change of the business or the rates in force. */
export interface StandingNumberTable {
  only: Generated<boolean>
  number: number
}

/** One row at most: the version that is being made. Every save raises `revision`. */
export interface RateDraftTable {
  id: GeneratedAlways<number>
  based_on: number
  body: JsonColumn<StoredTable>
  revision: Generated<number>
  made_at: string
  made_by: number
  saved_at: string
  saved_by: number
}

/** A figure that rate tables start with, by its key, and the value of it that the owner has looked at. */
export interface FigureLookedAtTable {
  key: string
  figure: string
  at: string
  by: number
}

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

/** The number that a firm has for what a request became. */
export interface PurchaseOrderTable {
  quote_request_id: number
  number: string
  told_at: string
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

export interface PlaceTable extends Joinable {
  id: GeneratedAlways<number>
  customer_id: number
  street: string
  postcode: string
  gate: string
  dog: string
  /** Who must be home, and where a pile may be dropped, for the crew. */
  home: Generated<string>
  pile: Generated<string>
  street_key: Generated<string | null>
  postcode_key: Generated<string>
  keyed_as: Generated<string>
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

/** A bed of a place, as it was told last and as it was measured last; `gone_at` where it is none any more. */
export interface BedTable {
  id: GeneratedAlways<number>
  place_id: number
  source: 'homeowner' | 'staff' | 'visit' | 'file'
  told: JsonColumn<BedTold>
  understood: JsonColumn<JobUnderstood | null>
  measured: JsonColumn<BedTold | null>
  measured_understood: JsonColumn<JobUnderstood | null>
  measured_at: string | null
  made_at: string
  gone_at: Generated<string | null>
  stop_id: Generated<number | null>
}

/** A stop of a place, as it was told last; `position` is its place among them. */
export interface StopTable {
  id: GeneratedAlways<number>
  place_id: number
  position: number
  name: string
  note: string
  spot: string
  made_at: string
}

/** Which bed stands where among those that were told, and that were measured, of a request. */
export interface RequestBedTable {
  quote_request_id: number
  bed_id: number
  told_position: number | null
  measured_position: number | null
}

/**
 * How a request was sent: with beds, or without any. `told` has none then, there is no ballpark, and what was
 * understood is a job of no beds.
 */
export const SENT_AS = ['beds', 'photos', 'last year', 'look'] as const
export type SentAs = (typeof SENT_AS)[number]

export interface RequestYearTable {
  year: number
  last: number
}

/**
 * `told` and `measured` keep what was typed, for showing; what was understood of each stands beside it, and prices are
 * worked out from that. It is null where it was never kept.
 */
export interface QuoteRequestTable {
  id: GeneratedAlways<number>
  number: string
  stage: Stage
  stage_at: string
  customer_id: number
  place_id: number
  submission_key: string
  /** Of what was sent, see contentHash; null where it came in before that was kept. */
  content_hash: string | null
  put_in_by: 'homeowner' | 'staff'
  sent_as: Generated<SentAs>
  language: Language
  preferred_times: string
  note: string
  told: JsonColumn<Told>
  understood: JsonColumn<JobUnderstood | null>
  measured: JsonColumn<Told | null>
  measured_understood: JsonColumn<JobUnderstood | null>
  /** The beds with what was picked beside the price that was accepted, until they are measured anew. */
  agreed: OptionalJson<StoredBeds>
  /** The contractor prices the beds as told, without a visit. */
  visit_left_out: Generated<boolean>
  arrived_at: string
  /** Kept by triggers, as is `due_at`; null off the list. A quote left unanswered is under Call once it is due. */
  step: GeneratedAlways<Step | null>
  /** By when the step was promised, or when it is to happen. */
  due_at: GeneratedAlways<string | null>
  /** How often a call had no answer, and from when to try again. A change of stage takes these two back, and a hold. */
  calls: Generated<number>
  call_again_at: Generated<string | null>
  /** The day on which it comes back to the list, 'YYYY-MM-DD'. */
  on_hold_until: Generated<string | null>
  given_to: Generated<number | null>
  /** The entry of the history from which on nobody has looked; see recordHistory. */
  news_from: Generated<number | null>
  junk_at: Generated<string | null>
  /** Since when a message to the homeowner couldn't be sent; kept by triggers. Then the step is Call. */
  unreached_at: GeneratedAlways<string | null>
  /** Since when the day or the time that is set doesn't suit the homeowner. */
  unsuited_at: Generated<string | null>
  /** The ended request whose beds this one took up; taken up once. */
  taken_up_from: Generated<number | null>
  /** Since when nobody is named here, and since when nobody is in its bills, certificates and hours either; for good. */
  erased_at: Generated<string | null>
  papers_erased_at: Generated<string | null>
}

/** What a request is found by, kept by triggers; see plainText. */
export interface RequestTextTable {
  quote_request_id: number
  plain: string
}

export interface BallparkTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  rate_table_id: number
  method: number
  low: string
  likely: string
  high: string
  result: JsonColumn<Ballpark>
  made_at: string
}

/** A time that a homeowner may pick for the visit, until one is, or it is taken back. */
export interface VisitOfferTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  starts_at: string
  made_at: string
  ended_at: string | null
}

export interface VisitTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  starts_at: string
  minutes: Generated<number>
  made_at: string
  done_at: string | null
  called_off_at: string | null
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

/** What something is that is bought in packs: a material, or what an extra needs. */
export type PackOf = 'finish' | 'extra'

/** What is left of a pack, and where ('' is the yard): kept by a trigger on its moves, and never below zero. */
export interface OnHandTable {
  id: GeneratedAlways<number>
  of: PackOf
  slug: string
  pack: string
  spot: string
  /** Packs, or yd³|m³ or tons|tonnes of what is loose. */
  units: Generated<string>
}

export type OnHandMoveKind = 'leftover' | 'purchase' | 'loaded' | 'put back' | 'by hand'

/** What came (above zero) or went, only ever added; by its key it is taken once. */
export interface OnHandMoveTable {
  id: GeneratedAlways<number>
  key: string
  on_hand_id: number
  kind: OnHandMoveKind
  units: string
  quote_request_id: number | null
  note: string
  made_at: string
  made_by: number | null
}

/**
 * What was got of a pack for a work day: bought, brought, or taken from on hand. `pack` is '' where none is listed; contents is
 * what one unit gives, in yd³|m³ (of rolls ft²|m², of pieces ft|m). Only ever added, and undone once.
 */
export interface LoadGotTable {
  id: GeneratedAlways<number>
  key: string
  day: string
  of: PackOf
  slug: string
  pack: string
  delivered: boolean
  on_hand_id: number | null
  units: string
  contents: string
  /** Null where nobody said. */
  paid: string | null
  bought_at: string
  /** The photo of its ticket, a JPEG. */
  ticket: Buffer | null
  made_at: string
  made_by: number
  undone_at: Generated<string | null>
  undone_by: Generated<number | null>
}

/** How much of it is for which job. */
export interface LoadShareTable {
  load_got_id: number
  quote_request_id: number
  units: string
}

/** That the yard had no more of something that a job takes. */
export interface SoldOutAtYardTable {
  quote_request_id: number
  of: PackOf
  slug: string
  told_at: string
  told_by: number
}

/** What is to be taken along always (slug ''), with a material, or with an extra: one a line, as 'Rake / Rastrillo'. */
export interface ThingsAlongTable {
  of: PackOf | 'always'
  slug: string
  things: string
}

/**
 * How far somebody drove on a day. `odometer_out` and `odometer_back` are null where only the distance was told; amounts are
 * in `unit`, with a decimal.
 */
export interface MilesDrivenTable {
  id: GeneratedAlways<number>
  key: string
  day: string
  vehicle: string
  odometer_out: string | null
  odometer_back: string | null
  distance: string
  unit: 'mi' | 'km'
  words: string
  made_at: string
  made_by: number
  undone_at: Generated<string | null>
  undone_by: Generated<number | null>
}

export interface ThingOnTruckTable {
  day: string
  thing: string
  made_at: string
  made_by: number
}

/** Who brings or keeps what is ordered; `sells` names packs as 'finish shredded-wood bulk', see orders/suppliers.ts. */
export interface SupplierTable {
  id: GeneratedAlways<number>
  name: string
  phone: string
  /** By when to call, and when the yard is open, in the owner's words. */
  cutoff: string
  hours: string
  /** How many business days before the work something is ordered. */
  lead_days: number
  /** Whether what is picked up there is ordered ahead too. */
  keeps: boolean
  sells: string[]
  saved_at: string
  saved_by: number
  removed_at: Generated<string | null>
}

export type OrderState = 'ordered' | 'confirmed' | 'delivered' | 'canceled'

/** What a supplier is to bring or keep for a work day; one at a time for each supplier, day and pack. */
export interface SupplyOrderTable {
  id: GeneratedAlways<number>
  supplier_id: number
  day: string
  of: PackOf
  slug: string
  pack: string
  /** Brought; else kept until it is picked up. */
  delivered: boolean
  units: string
  state: OrderState
  /** Where it was dropped. */
  dropped: Generated<string>
  /** By what of a load list it was noted as come; null where nothing of the day wanted it. */
  load_got_id: Generated<number | null>
}

export interface SupplyOrderJobTable {
  supply_order_id: number
  quote_request_id: number
}

export interface SupplyOrderStepTable {
  id: GeneratedAlways<number>
  supply_order_id: number
  state: OrderState
  units: string
  note: string
  made_at: string
  made_by: number
}

export const PAYMENT_WAYS = ['cash', 'check', 'card', 'transfer', 'other'] as const
export type PaymentWay = (typeof PAYMENT_WAYS)[number]

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

/** `taken_hours` is kept by a trigger on booking_day; a CHECK keeps it within `room_hours`. */
export interface WorkDayTable {
  day: string
  room_hours: string
  taken_hours: Generated<string>
  /** What of that is booked on the morning, and on the afternoon; kept by triggers. */
  am_hours: GeneratedAlways<string>
  pm_hours: GeneratedAlways<string>
  /** Kept for what rain moves: homeowners aren't offered it. */
  is_makeup: Generated<boolean>
  /** The labor hours that visits need, and what of them the day has left beside the work; kept by triggers. */
  visit_need: GeneratedAlways<string>
  visit_hours: GeneratedAlways<string>
  /** The same of the morning and of the afternoon, parted at noon where the business is. */
  visit_am_need: GeneratedAlways<string>
  visit_pm_need: GeneratedAlways<string>
  visit_am_hours: GeneratedAlways<string>
  visit_pm_hours: GeneratedAlways<string>
  /** Whether the owner set its room, so that it doesn't follow who works. */
  by_hand: Generated<boolean>
  /** What a closed day is off for; '' where nothing was said. */
  off_for: Generated<string>
}

/** What was moved for rain in one go, by the key of its form. */
export interface RainMoveTable {
  key: string
  day: string
  made_at: string
  made_by: number
}

export interface CrewMemberTable {
  id: GeneratedAlways<number>
  name: string
  /** Labor hours on each weekday, Monday first. */
  hours: string[]
}

export interface CrewMemberOffTable {
  id: GeneratedAlways<number>
  crew_member_id: number
  from_day: string
  to_day: string
}

export interface BookingTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  quote_id: number
  first_day: string
  made_at: string
  called_off_at: string | null
  /** Until when its days are held for who asked for them; null once they are booked. */
  held_until: string | null
  /** Of a week that was chosen: by when its day is said; null once it is. Its days are penciled in until then. */
  say_by: string | null
}

export interface BookingDayTable {
  booking_id: number
  day: string
  hours: string
  /** The morning or the afternoon; null of the day at large. */
  part: 'am' | 'pm' | null
}

export const OUTCOMES = ['done', 'part done', 'stopped', 'reopened'] as const

/**
 * How a job went: a version is never changed, and the newest counts. The days are the first and the last on which it was
 * worked at; null where it was opened again.
 */
export interface JobClosingTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  version: number
  outcome: (typeof OUTCOMES)[number]
  as_planned: boolean
  first_day: string | null
  last_day: string | null
  /** Trips to fetch material; null where nobody counted. */
  trips: number | null
  note: string
  made_at: string
  made_by: number
}

/** What of a quote's line was done when its job was stopped, at one of its stops or in all; without a row all of it. */
export interface JobShareDoneTable {
  closing_id: number
  quote_id: number
  position: number
  stop: number | null
  share: string
}

/** One row at most: the size of a wheelbarrow as it is heaped, in ft³|m³, and the days of utility tickets by the owner's state. */
export interface JobSheetSettingsTable {
  only: Generated<boolean>
  barrow: string
  /** Working days from the request until it is good, and days that it is good then; null where the owner hasn't said. */
  dig_wait_days: number | null
  dig_valid_days: number | null
  dig_source: string
  saved_at: string
  saved_by: number
}

/** What a utility answered to a ticket. */
export interface DigAnswer {
  utility: string
  answer: string
}

/** The utility ticket of a job that digs; the newest version counts, and one without a number says that there is none. */
export interface DigTicketTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  version: number
  number: string
  requested_on: string | null
  valid_from: string | null
  valid_until: string | null
  answers: JsonColumn<DigAnswer[]>
  made_at: string
  made_by: number
}

/** Who decided that a job that digs goes on, by the ticket of then (0: none was ever entered). */
export interface DigDecisionTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  ticket_version: number
  name: string
  made_at: string
  made_by: number
}

/** How many of a pack a job took, in packs or in yd³|m³ or tons|tonnes of what is loose, and how many were planned. */
export interface JobUsedTable {
  closing_id: number
  of: PackOf
  slug: string
  /** '' where the rates list no pack. */
  pack: string
  units: string
  planned: string
}

export interface JobLeftOverTable extends Omit<JobUsedTable, 'planned'> {
  goes: 'on hand' | 'customer'
}

export const JOB_TASKS = ['work', 'yard', 'driving'] as const

/** What somebody worked at a job, with an account or without; the name is that of then. */
export interface JobHoursTable {
  closing_id: number
  nth: number
  account_id: number | null
  name: string
  task: (typeof JOB_TASKS)[number]
  minutes: number
}

export interface JobDumpFeeTable {
  closing_id: number
  nth: number
  amount: string
  words: string
  typed_by: number
}

/** That a stop of a job, counted from 0, is done. */
export interface JobStopDoneTable {
  quote_request_id: number
  stop: number
  done_at: string
  done_by: number
}

/** A photo that whoever worked there took; the same one is kept once, by the hash of what came. */
export interface JobPhotoTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  words: string
  picture: Buffer
  small: Buffer
  small_width: number
  small_height: number
  digest: string
  made_at: string
  made_by: number
}

/** What was damaged, or what somebody comes back for without charging, on a day. */
export interface JobTroubleTable {
  id: GeneratedAlways<number>
  key: string
  quote_request_id: number
  kind: 'damage' | 'come back'
  words: string
  day: string | null
  photo_id: number | null
  made_at: string
  made_by: number
  done_at: Generated<string | null>
  done_by: Generated<number | null>
}

export interface LinkTable {
  id: GeneratedAlways<number>
  purpose: 'own page' | 'booking' | 'email address' | 'reading'
  quote_request_id: number
  nonce: string
  token_hash: string
  made_at: string
  ends_at: string | null
  revoked_at: string | null
}

/** One row at most: what the key that links are made from is known again by. */
export interface KeyCheckTable {
  only: Generated<boolean>
  value: string
}

/** How the last nightly backups went, one row. */
export interface StoreBackupTable {
  only: Generated<boolean>
  tried_at: string
  made_at: string | null
  bytes: number | null
  /** Why the last one failed, in a plain line; null when it did not. */
  fault: string | null
}

export interface HistoryTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  at: string
  by_kind: 'homeowner' | 'staff' | 'clock'
  account_id: number | null
  verb: string
  detail: JsonColumn<Record<string, string>>
}

/** How a message goes. */
export type Way = 'mail' | 'text'

export interface OutboxTable {
  id: string
  kind: string
  quote_request_id: number | null
  recipient: 'homeowner' | 'owner' | 'account' | 'invited' | 'held'
  made_at: string
  sent_at: string | null
  attempts: Generated<number>
  /** A word of faults.ts; beginning with 'stopped: ' or 'dropped: ' of what is given up. */
  last_fault: string | null
  way: Generated<Way>
  /** Who passed it on by hand. */
  passed_on_by: Generated<number | null>
  /** When its sending was put on last. */
  tried_from: string
  /** What it is about that is said once only, whoever notices first: as 'follow-up 12'. */
  once: Generated<string | null>
  /** To the staff, and waits for the day's summary; `digest_id` is that one, once it is written. */
  for_digest: Generated<boolean>
  digest_id: Generated<string | null>
  offer_id: Generated<number | null>
  /** To whom of the staff, where it is about their signing in. */
  account_id: Generated<number | null>
  /** To somebody who is asked to help. */
  invitation_id: Generated<number | null>
  /** To whoever sent what is held as maybe junk. */
  maybe_junk_id: Generated<number | null>
}

/** How many requests came within a window of so many seconds, and in the one before; `counted` is a keyed hash of what they have in common. */
export interface RequestsCountedTable {
  counted: string
  seconds: number
  begun: string
  requests: number
  before: number
}

/** That a customer agreed to get offers one way, or not any more: the newest of a customer and a way counts. */
export interface ConsentTable {
  id: GeneratedAlways<number>
  customer_id: number
  way: Way
  given: boolean
  at: string
  by_kind: 'homeowner' | 'staff'
  account_id: number | null
  /** What was checked, said or written, word for word. */
  words: string
}

/** An offer to past customers; unsent until `sent_at`. */
export interface OfferTable {
  id: GeneratedAlways<number>
  words_en: string
  words_es: string
  made_at: string
  made_by: number
  sent_at: string | null
}

/** Who gets an offer, how, and by which request they are known. */
export interface OfferRecipientTable {
  offer_id: number
  customer_id: number
  way: Way
  quote_request_id: number
}

/** What the owner chose for a kind of message, where it isn't as it starts; see outbox/choices.ts. */
export interface MessageChoiceTable {
  name: string
  choice: 'on' | 'off' | 'daily'
  days: number | null
}

/** One row at most: what text messages are handed to; its secret is made from the key and the nonce. */
export interface TextGatewayTable {
  only: Generated<boolean>
  address: string
  nonce: string
  set_at: string
}

/** The calendar that somebody of the staff subscribes to; one a person, found by the hash of its token. */
export interface CalendarFeedTable {
  account_id: number
  nonce: string
  token_hash: string
  made_at: string
}

/** An answer that the gateway brought, so that it isn't taken twice. */
export interface TextReplyTable {
  id: string
  received_at: string
}

/** How many mails went out in an hour, of what is counted together; see letters/mail-limits.ts. */
export interface MailHourTable {
  counted: string
  hour: string
  mails: number
}

/** A photo of a finish, a JPEG under the SHA-256 of its bytes; never changed. */
export interface FinishPhotoTable {
  name: string
  picture: Buffer
  width: number
  height: number
  made_at: string
  made_by: number
}

/**
 * A photo that a homeowner sent, both sizes JPEGs. Until its request is sent it is held, and `token_hash` is what the form
 * knows it by; then it is in one of the request's places, from 1 on. `bytes` is of both sizes together.
 */
export interface RequestPhotoTable {
  id: GeneratedAlways<number>
  quote_request_id: number | null
  /** Of a request that may be junk, until somebody has said which it is. */
  maybe_junk_id: Generated<number | null>
  place: number | null
  token_hash: string | null
  words: Generated<string>
  picture: Buffer
  width: number
  height: number
  small: Buffer
  small_width: number
  small_height: number
  bytes: number
  made_at: string
}

/**
 * A request that may be junk, as it was sent, until somebody says which it is; none of it stands in any other table. Without beds it has no
 * rates, nothing understood and no ballpark.
 */
export interface MaybeJunkTable {
  id: GeneratedAlways<number>
  number: string
  submission_key: string
  content_hash: string
  sending: JsonColumn<SentByStranger>
  rate_table_id: number | null
  understood: JsonColumn<JobUnderstood | null>
  ballpark: JsonColumn<Ballpark | null>
  /** What the link to its own page is made from. */
  nonce: string
  token_hash: string
  /** How much speaks for it: the sum of its reasons. */
  points: number
  reasons: JsonColumn<Reason[]>
  arrived_at: string
  /** When somebody said that it's junk. */
  junk_at: Generated<string | null>
  /** Of the link by which whoever sent it confirms it; null where nobody was asked. */
  asked_hash: Generated<string | null>
}

/** All that a homeowner sends but photos and the form's own key. */
export interface SentByStranger {
  told: Told
  language: Language
  sentAs?: SentAs | undefined
  name: string
  phone: string
  email: string
  street: string
  postcode: string
  preferredTimes: string
  gate: string
  dog: string
  note: string
  offersMail?: string | undefined
  offersText?: string | undefined
}

/** The owner's own words for a sentence of a message, by its key. */
export interface MessageWordsTable {
  key: string
  language: Language
  words: string
}

/** Who took the data of a customer out or erased it, by numbers alone; by the nightly work where there is no account. */
export interface AccessLogTable {
  id: GeneratedAlways<number>
  at: string
  account_id: number | null
  verb: 'exported' | 'erased' | 'papers erased'
  customer_id: number | null
  /** The numbers of the requests. */
  requests: string[]
}

export interface Database {
  account: AccountTable
  session: SessionTable
  sign_in_failure: SignInFailureTable
  password_reset: PasswordResetTable
  sign_in_link: SignInLinkTable
  authenticator: AuthenticatorTable
  recovery_code: RecoveryCodeTable
  passkey: PasskeyTable
  passkey_challenge: PasskeyChallengeTable
  invitation: InvitationTable
  role_change: RoleChangeTable
  business: BusinessTable
  rate_table: RateTableTable
  rate_table_called_off: RateTableCalledOffTable
  standing_number: StandingNumberTable
  rate_draft: RateDraftTable
  figure_looked_at: FigureLookedAtTable
  finish_photo: FinishPhotoTable
  customer: CustomerTable
  moving_in: MovingInTable
  firm: FirmTable
  kept_file: KeptFileTable
  paper: PaperTable
  job_certificate: JobCertificateTable
  purchase_order: PurchaseOrderTable
  customer_decision: DecisionTable
  place: PlaceTable
  place_decision: DecisionTable
  bed: BedTable
  stop: StopTable
  request_bed: RequestBedTable
  request_year: RequestYearTable
  quote_request: QuoteRequestTable
  request_photo: RequestPhotoTable
  maybe_junk: MaybeJunkTable
  requests_counted: RequestsCountedTable
  request_text: RequestTextTable
  ballpark: BallparkTable
  visit: VisitTable
  visit_offer: VisitOfferTable
  quote: QuoteTable
  quote_line: QuoteLineTable
  quote_line_share: QuoteLineShareTable
  quote_sent: QuoteSentTable
  quote_seen: QuoteSeenTable
  quote_variant: QuoteVariantTable
  payment: PaymentTable
  deposit_settled: DepositSettledTable
  bill: BillTable
  bill_year: BillYearTable
  bill_line: BillLineTable
  bill_line_share: BillLineShareTable
  fee: FeeTable
  on_hand: OnHandTable
  on_hand_move: OnHandMoveTable
  load_got: LoadGotTable
  load_share: LoadShareTable
  sold_out_at_yard: SoldOutAtYardTable
  things_along: ThingsAlongTable
  thing_on_truck: ThingOnTruckTable
  miles_driven: MilesDrivenTable
  supplier: SupplierTable
  supply_order: SupplyOrderTable
  supply_order_job: SupplyOrderJobTable
  supply_order_step: SupplyOrderStepTable
  acceptance: AcceptanceTable
  accepted_text: AcceptedTextTable
  change_declined: ChangeDeclinedTable
  work_day: WorkDayTable
  rain_move: RainMoveTable
  crew_member: CrewMemberTable
  crew_member_off: CrewMemberOffTable
  booking: BookingTable
  booking_day: BookingDayTable
  job_closing: JobClosingTable
  job_share_done: JobShareDoneTable
  job_sheet_settings: JobSheetSettingsTable
  dig_ticket: DigTicketTable
  dig_decision: DigDecisionTable
  job_used: JobUsedTable
  job_left_over: JobLeftOverTable
  job_hours: JobHoursTable
  job_dump_fee: JobDumpFeeTable
  job_stop_done: JobStopDoneTable
  job_photo: JobPhotoTable
  job_trouble: JobTroubleTable
  link: LinkTable
  key_check: KeyCheckTable
  store_backup: StoreBackupTable
  history: HistoryTable
  outbox: OutboxTable
  consent: ConsentTable
  offer: OfferTable
  offer_recipient: OfferRecipientTable
  message_choice: MessageChoiceTable
  message_words: MessageWordsTable
  calendar_feed: CalendarFeedTable
  text_gateway: TextGatewayTable
  text_reply: TextReplyTable
  mail_hour: MailHourTable
  access_log: AccessLogTable
}

export type Stage =
  | 'new'
  | 'visit set'
  | 'measured'
  | 'quoted'
  | 'day asked'
  | 'week chosen'
  | 'booked'
  | 'part done'
  | 'done'
  | 'billed'
  | 'paid'
  | 'called off'
  | 'not taken'
  | "can't do"
  | 'lapsed'

/** The headings of the queue, in order. */
export const STEPS = ['Call', 'Measure', 'Price', 'Follow up', 'Load', 'Bill', 'Collect'] as const
export type Step = (typeof STEPS)[number]
