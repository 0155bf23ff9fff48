import { type Kysely, sql } from 'kysely'

/** A session has a name that may be shown, the browser it is in, and how long it may lie unused. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table session
      add column id bigint generated always as identity unique,
      add column browser text,
      add column system text,
      add column idle_days integer not null default 7 check (idle_days > 0)`.execute(db)
}
