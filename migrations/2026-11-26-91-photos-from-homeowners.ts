import { type Kysely, sql } from 'kysely'

/**
 * Photos that homeowners send: before their request is sent they are held under the hash of a token that the form has,
 * from then on they are the request's, in one of its six places. And how a request was sent, where no beds were told.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table quote_request add column sent_as text not null default 'beds'
      check (sent_as in ('beds', 'photos', 'last year', 'look'))`.execute(db)
  await sql`
    alter table business
      add column photos_each integer not null default 6 check (photos_each between 0 and 6),
      add column photos_megabytes integer not null default 1000 check (photos_megabytes between 10 and 100000),
      add column photos_months integer not null default 6 check (photos_months between 1 and 60)`.execute(db)
  await sql`
    create table request_photo (
      id bigint generated always as identity primary key,
      quote_request_id bigint references quote_request,
      place integer check (place between 1 and 6),
      token_hash text unique,
      words text not null default '',
      picture bytea not null,
      width integer not null check (width > 0),
      height integer not null check (height > 0),
      small bytea not null,
      small_width integer not null check (small_width > 0),
      small_height integer not null check (small_height > 0),
      bytes integer not null check (bytes > 0),
      made_at timestamptz not null,
      unique (quote_request_id, place),
      check ((quote_request_id is null) = (place is null)),
      check (quote_request_id is not null or token_hash is not null)
    )`.execute(db)
  await sql`create index request_photo_held on request_photo (made_at) where quote_request_id is null`.execute(
    db,
  )
}
