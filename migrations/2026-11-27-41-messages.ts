import { type Kysely, sql } from 'kysely'

/**
 * Which messages go out at all, and the staff's as they come or once a day; what is written by the clock is written once
 * by its `once`, and what waits for the day's summary belongs to that.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table message_choice (
      name text primary key,
      choice text not null check (choice in ('on', 'off', 'daily')),
      days integer check (days between 1 and 60)
    )`.execute(db)
  await sql`
    alter table outbox
      add column once text unique,
      add column for_digest boolean not null default false,
      add column digest_id uuid references outbox`.execute(db)
  await sql`
    create index outbox_for_digest on outbox (made_at) where for_digest and digest_id is null`.execute(db)
}
