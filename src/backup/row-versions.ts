import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

const BATCH_CHARACTERS = 500_000
const BATCH_ROWS = { first: 10, most: 1_000 }

/**
 * Names one version of one row of a table: where it lies, and the transaction that wrote it, as '(0,7)745'. What a
 * version says never changes: a row that is changed gets another.
 */
export type RowVersion = string

/** The versions of a table's rows that count now, in the order in which they lie. */
export async function findVersions(db: Kysely<Database>, table: string): Promise<RowVersion[]> {
  const { rows } = await sql<{ versions: string | null }>`
    select string_agg(ctid::text || xmin::text, ' ') as versions from ${sql.table(table)}`.execute(db)
  return rows[0]?.versions?.split(' ') ?? []
}

/**
 * Reads rows, each as the JSON that PostgreSQL makes of it: read and written again, a numeric or a moment could lose
 * digits. Where another version lies by now it gives that one. A batch is of so many rows as make half a megabyte by
 * those before: a row may be a number or a photo.
 */
export async function* readVersions(
  db: Kysely<Database>,
  table: string,
  wanted: RowVersion[],
): AsyncGenerator<{ version: RowVersion; json: string }[]> {
  let count = BATCH_ROWS.first
  for (let at = 0; at < wanted.length; ) {
    const places = wanted.slice(at, at + count).map(version => version.slice(0, version.indexOf(')') + 1))
    const { rows } = await sql<{ version: RowVersion; json: string }>`
      select ctid::text || xmin::text as version, row_to_json(one)::text as json
      from ${sql.table(table)} as one where ctid = any(${places}::tid[])`.execute(db)
    at += count
    if (rows.length === 0) continue
    yield rows
    const characters = rows.reduce((sum, { json }) => sum + json.length, 0)
    const fitting = Math.floor((BATCH_CHARACTERS * rows.length) / characters)
    count = Math.min(Math.max(fitting, 1), BATCH_ROWS.most)
  }
}
