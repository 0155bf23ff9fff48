import { type Kysely, sql } from 'kysely'

/** What the owner takes off a price where a homeowner chooses a day with work near; null where nothing. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table business add column near_discount jsonb`.execute(db)
}
