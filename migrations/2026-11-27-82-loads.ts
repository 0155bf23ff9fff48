import { type Kysely, sql } from 'kysely'

/**
 * What was got for a work day: bought, brought, or taken from on hand, with what was paid and who has how much of it. Rows are
 * only added; one that was a mistake is undone once. What was sold out at the yard, what is to be taken along, and what of that
 * is on the truck.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table load_got (
      id bigint generated always as identity primary key,
      key text not null,
      day date not null,
      of text not null check (of in ('finish', 'extra')),
      slug text not null check (slug <> ''),
      pack text not null,
      delivered boolean not null,
      on_hand_id bigint references on_hand,
      units numeric(10,3) not null check (units > 0),
      contents numeric(16,8) not null check (contents > 0),
      paid numeric(12,2) check (paid >= 0),
      bought_at text not null,
      ticket bytea,
      made_at timestamptz not null,
      made_by bigint not null references account,
      undone_at timestamptz,
      undone_by bigint references account,
      constraint load_got_once unique (key),
      constraint load_got_from_on_hand check (on_hand_id is null or (paid is null and not delivered))
    )`.execute(db)
  await sql`create index load_got_of_day on load_got (day)`.execute(db)
  await sql`
    create table load_share (
      load_got_id bigint not null references load_got,
      quote_request_id bigint not null references quote_request,
      units numeric(14,6) not null check (units > 0),
      primary key (load_got_id, quote_request_id)
    )`.execute(db)
  await sql`create index load_share_of_request on load_share (quote_request_id)`.execute(db)
  await keepAsGot(db)
  await sql`
    create table sold_out_at_yard (
      quote_request_id bigint not null references quote_request,
      of text not null check (of in ('finish', 'extra')),
      slug text not null,
      told_at timestamptz not null,
      told_by bigint not null references account,
      primary key (quote_request_id, of, slug)
    )`.execute(db)
  await sql`
    create table things_along (
      of text not null check (of in ('always', 'finish', 'extra')),
      slug text not null,
      things text not null,
      primary key (of, slug)
    )`.execute(db)
  await sql`
    create table thing_on_truck (
      day date not null,
      thing text not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      primary key (day, thing)
    )`.execute(db)
}

async function keepAsGot(db: Kysely<any>) {
  await sql`
    create function keep_load_got() returns trigger language plpgsql as $$
    begin
      if old.undone_at is not null or new.undone_at is null or to_jsonb(old) - 'undone_at' - 'undone_by'
          <> to_jsonb(new) - 'undone_at' - 'undone_by' then
        raise exception 'what was got stays as it was noted; it is undone once';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger keep_as_made before update on load_got for each row execute function keep_load_got()`.execute(
    db,
  )
  await sql`
    create trigger keep before delete on load_got for each row execute function refuse_change()`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on load_share
    for each row execute function refuse_change()`.execute(db)
}
