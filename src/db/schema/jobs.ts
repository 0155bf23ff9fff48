import type { Generated, GeneratedAlways } from 'kysely'
import type { JsonColumn } from './columns.ts'
import type { PackOf } from './goods.ts'

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
