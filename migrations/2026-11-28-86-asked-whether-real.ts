import { type Kysely, sql } from 'kysely'

/**
 * What is held in doubt may be confirmed by a link, whose hash stands with it; its message, and the one to the owner, stand in the outbox without a request.
 * And how many requests came, by keyed hashes of where from, for all processes together.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table maybe_junk add column asked_hash text unique`.execute(db)
  await sql`
    alter table outbox
      add column maybe_junk_id bigint references maybe_junk on delete cascade,
      drop constraint outbox_recipient_check,
      add constraint outbox_recipient_check check (recipient in ('homeowner', 'owner', 'account', 'invited', 'held')),
      add constraint outbox_held_check check ((recipient = 'held') = (maybe_junk_id is not null))`.execute(db)
  await sql`
    create index outbox_to_held on outbox (maybe_junk_id) where maybe_junk_id is not null`.execute(db)
  await sql`
    create table requests_counted (
      counted text primary key,
      seconds integer not null check (seconds > 0),
      begun timestamptz not null,
      requests integer not null,
      before integer not null
    )`.execute(db)
  await sql`create index requests_counted_begun on requests_counted (begun)`.execute(db)
}
