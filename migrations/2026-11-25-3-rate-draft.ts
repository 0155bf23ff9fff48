import { type Kysely, sql } from 'kysely'

/** Versions that wait for their day, and the one draft of the next version. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table rate_table add column in_force_from timestamptz`.execute(db)
  await sql`
    create table rate_draft (
      id bigint generated always as identity primary key,
      based_on bigint not null references rate_table,
      body jsonb not null,
      revision integer not null default 1 check (revision > 0),
      made_at timestamptz not null,
      made_by bigint not null references account,
      saved_at timestamptz not null,
      saved_by bigint not null references account
    )`.execute(db)
  await sql`create unique index rate_draft_one_open on rate_draft ((true))`.execute(db)
}
