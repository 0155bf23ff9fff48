import { type Kysely, sql } from 'kysely'

/**
 * What is left of each pack, and where: a balance that only its moves change, which are only added. The balance is kept by a
 * trigger, and never falls below zero.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table on_hand (
      id bigint generated always as identity primary key,
      of text not null check (of in ('finish', 'extra')),
      slug text not null check (slug <> ''),
      pack text not null check (pack <> ''),
      spot text not null,
      units numeric(10,3) not null default 0,
      constraint on_hand_not_below_zero check (units >= 0)
    )`.execute(db)
  await sql`create unique index on_hand_once on on_hand (of, slug, pack, lower(spot))`.execute(db)
  await sql`
    create table on_hand_move (
      id bigint generated always as identity primary key,
      key text not null,
      on_hand_id bigint not null references on_hand,
      kind text not null check (kind in ('leftover', 'purchase', 'loaded', 'put back', 'by hand')),
      units numeric(10,3) not null check (units <> 0),
      quote_request_id bigint references quote_request,
      note text not null,
      made_at timestamptz not null,
      made_by bigint references account,
      constraint on_hand_move_once unique (key)
    )`.execute(db)
  await sql`create index on_hand_move_of on on_hand_move (on_hand_id, id)`.execute(db)
  await sql`
    create function keep_on_hand() returns trigger language plpgsql as $$
    begin
      update on_hand set units = units + new.units where id = new.on_hand_id;
      return null;
    end $$`.execute(db)
  await sql`
    create trigger keep_balance after insert on on_hand_move for each row execute function keep_on_hand()`.execute(
    db,
  )
  await sql`
    create trigger keep_as_made before update or delete on on_hand_move
    for each row execute function refuse_change()`.execute(db)
}
