import { type Kysely, sql } from 'kysely'

/**
 * Customers, places and beds that came from a file: the file is kept until it is taken in, and each customer knows which
 * one brought it, so that all of it can be taken back. The same file stands once at a time.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table moving_in (
      id bigint generated always as identity primary key,
      file_name text not null,
      content_hash text not null,
      file text,
      columns jsonb not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      taken_in_at timestamptz,
      taken_in_by bigint references account,
      customers integer not null default 0,
      places integer not null default 0,
      beds integer not null default 0,
      taken_back_at timestamptz,
      taken_back_by bigint references account,
      check ((taken_in_at is null) = (taken_in_by is null)),
      check ((taken_back_at is null) = (taken_back_by is null)),
      check ((file is null) = (taken_in_at is not null)),
      check (taken_back_at is null or taken_in_at is not null)
    )`.execute(db)
  await sql`
    create unique index moving_in_standing on moving_in (content_hash)
    where taken_in_at is not null and taken_back_at is null`.execute(db)
  await sql`alter table customer add column moved_in_id bigint references moving_in`.execute(db)
  await sql`create index customer_moved_in on customer (moved_in_id) where moved_in_id is not null`.execute(
    db,
  )
}
