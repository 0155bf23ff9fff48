import type { Generated, GeneratedAlways } from 'kysely'
import type { StoredTable } from '../../estimate/table/complete-table.ts'
import type { JsonColumn } from './columns.ts'

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

/** A photo of a finish, a JPEG under the SHA-256 of its bytes; never changed. */
export interface FinishPhotoTable {
  name: string
  picture: Buffer
  width: number
  height: number
  made_at: string
  made_by: number
}
