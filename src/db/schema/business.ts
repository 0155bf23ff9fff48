import type { ColumnType, Generated } from 'kysely'
import type { InBoth } from '../../language/language.ts'
import type { Json } from '../json.ts'
import type { BillingSettings } from './bills.ts'
import type { OptionalJson } from './columns.ts'
import type { Amount, DepositSettings } from './payments.ts'

export type Units = 'us' | 'metric'

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

/** One row at most, none before the first change: it goes up with each change of the business or the rates in force. */
export interface StandingNumberTable {
  only: Generated<boolean>
  number: number
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
