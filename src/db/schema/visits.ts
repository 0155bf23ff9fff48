import type { Generated, GeneratedAlways } from 'kysely'

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
