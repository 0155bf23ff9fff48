import type { Generated, GeneratedAlways } from 'kysely'
import type { Ballpark } from '../../estimate/ballpark/ballpark.ts'
import type { Told } from '../../estimate/job/bed.ts'
import type { JobUnderstood } from '../../estimate/understood/format.ts'
import type { Reason } from '../../junk/score.ts'
import type { Language } from '../../language/language.ts'
import type { JsonColumn } from './columns.ts'
import type { SentAs } from './places.ts'

/** How many requests came within a window of so many seconds, and in the one before; `counted` is a keyed hash of what they have in common. */
export interface RequestsCountedTable {
  counted: string
  seconds: number
  begun: string
  requests: number
  before: number
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
