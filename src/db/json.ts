import { type RawBuilder, sql } from 'kysely'

/** A JSON value on its way into a jsonb column. */
export type Json<T> = RawBuilder<T>

/** Binds any JSON value, lists too, as text for a jsonb column. */
export function json<T>(value: T): Json<T> {
  return sql<T>`${JSON.stringify(value)}::jsonb`
}
