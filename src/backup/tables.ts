import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/** The names of every table of the store, in the order of the alphabet: without the migrator's, and without an extension's. */
export async function findTables(db: Kysely<Database>): Promise<string[]> {
  const { rows } = await sql<{ name: string }>`
    select relname as name from pg_class
    where relnamespace = current_schema()::regnamespace and relkind = 'r' and relname !~ '^kysely_'
      and not exists (select from pg_depend where classid = 'pg_class'::regclass and objid = pg_class.oid and deptype = 'e')
    order by relname collate "C"`.execute(db)
  return rows.map(row => row.name)
}

/** The last number that each sequence gave, by its name; null where it gave none yet. */
export async function findSequences(db: Kysely<Database>): Promise<Record<string, number | null>> {
  const { rows } = await sql<{ name: string; last: number | null }>`
    select sequencename as name, last_value as last from pg_sequences where schemaname = current_schema()
    order by sequencename collate "C"`.execute(db)
  return Object.fromEntries(rows.map(row => [row.name, row.last]))
}
