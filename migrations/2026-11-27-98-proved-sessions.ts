import { type Kysely, sql } from 'kysely'

/** A session knows when its password was typed last: null where it came by a link, or before this was kept. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table session add column proved_at timestamptz`.execute(db)
}
