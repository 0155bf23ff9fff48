import { type Kysely, sql } from 'kysely'

/**
 * Requests that may be junk, apart from all others: as they were sent, until somebody says which they are. Their photos are theirs until
 * then, and go with them.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table maybe_junk (
      id bigint generated always as identity primary key,
      number text not null unique,
      submission_key uuid not null,
      content_hash text not null,
      sending jsonb not null,
      rate_table_id bigint references rate_table,
      understood jsonb,
      ballpark jsonb,
      nonce text not null,
      token_hash text not null unique,
      points integer not null,
      reasons jsonb not null,
      arrived_at timestamptz not null,
      junk_at timestamptz,
      unique (submission_key, content_hash),
      check ((ballpark is null) = (understood is null)),
      check ((ballpark is null) = (rate_table_id is null))
    )`.execute(db)
  await sql`create index maybe_junk_newest on maybe_junk ((junk_at is not null), id desc)`.execute(db)
  await sql`
    alter table request_photo
      add column maybe_junk_id bigint references maybe_junk on delete cascade
        check (maybe_junk_id is null or quote_request_id is null)`.execute(db)
  await sql`create index request_photo_maybe_junk on request_photo (maybe_junk_id) where maybe_junk_id is not null`.execute(
    db,
  )
}
