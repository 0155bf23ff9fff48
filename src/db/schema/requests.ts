import type { Generated, GeneratedAlways } from 'kysely'
import type { Ballpark } from '../../estimate/ballpark/ballpark.ts'
import type { Told } from '../../estimate/job/bed.ts'
import type { JobUnderstood } from '../../estimate/understood/format.ts'
import type { StoredBeds } from '../../estimate/understood/stored.ts'
import type { Language } from '../../language/language.ts'
import type { JsonColumn, OptionalJson } from './columns.ts'
import type { SentAs } from './places.ts'
import type { Stage, Step } from './stages.ts'

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

export interface HistoryTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  at: string
  by_kind: 'homeowner' | 'staff' | 'clock'
  account_id: number | null
  verb: string
  detail: JsonColumn<Record<string, string>>
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
