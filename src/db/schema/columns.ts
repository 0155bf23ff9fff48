import type { ColumnType } from 'kysely'
import type { Json } from '../json.ts'

/** A jsonb column: reads as the parsed value, and is written through `json()` only. */
export type JsonColumn<T> = ColumnType<T, Json<T> | Extract<T, null>, Json<T> | Extract<T, null>>

/** The same where it may be left out, and is null then. */
export type OptionalJson<T> = ColumnType<T | null, Json<T> | null | undefined, Json<T> | null>
