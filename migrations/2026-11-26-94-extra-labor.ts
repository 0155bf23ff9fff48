import { type Kysely, sql } from 'kysely'

/** The labor of an extra as a line of its own, beside the kinds of line that there are. */
export async function up(db: Kysely<any>): Promise<void> {
  const { rows } = await sql<{ told: string }>`
    select pg_get_constraintdef(oid) as told from pg_constraint
    where conrelid = 'quote_line'::regclass and conname = 'quote_line_kind_check'`.execute(db)
  const kinds = [...rows[0]!.told.matchAll(/'([a-z-]+)'/g)].map(([, kind]) => kind!)
  await sql`alter table quote_line drop constraint quote_line_kind_check`.execute(db)
  await sql`
    alter table quote_line add constraint quote_line_kind_check
      check (kind in (${sql.join([...kinds, 'extra-labor'].map(kind => sql.lit(kind)))}))`.execute(db)
}
