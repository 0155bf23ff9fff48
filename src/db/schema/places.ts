import type { Generated, GeneratedAlways } from 'kysely'
import type { BedTold } from '../../estimate/job/bed.ts'
import type { JobUnderstood } from '../../estimate/understood/format.ts'
import type { JsonColumn } from './columns.ts'
import type { Joinable } from './people.ts'

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
