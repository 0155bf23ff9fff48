import { type Kysely, sql } from 'kysely'

/** The sites that may show homeowners' pages in a frame, as origins. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table business add column sites text[] not null default '{}'`.execute(db)
}
