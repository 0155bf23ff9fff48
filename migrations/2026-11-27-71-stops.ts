import { type Kysely, sql } from 'kysely'

/** A job may have many stops, which a place keeps from year to year; and what of a quote's lines falls onto each. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table stop (
      id bigint generated always as identity primary key,
      place_id bigint not null references place,
      position integer not null,
      name text not null check (name <> ''),
      note text not null,
      spot text not null,
      made_at timestamptz not null
    )`.execute(db)
  await sql`create index stop_place on stop (place_id)`.execute(db)
  await sql`alter table bed add column stop_id bigint references stop`.execute(db)
  await sql`create index bed_stop on bed (stop_id)`.execute(db)
  await sql`
    create table quote_line_share (
      quote_id bigint not null,
      position integer not null,
      stop integer not null check (stop >= 0),
      amount numeric(12,2) not null,
      primary key (quote_id, position, stop),
      foreign key (quote_id, position) references quote_line (quote_id, position)
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on quote_line_share
    for each row execute function refuse_change()`.execute(db)
  await sql`
    create function quote_shares_add_up() returns trigger language plpgsql as $$
    begin
      if (select amount from quote_line where quote_id = new.quote_id and position = new.position)
         <> (select sum(amount) from quote_line_share where quote_id = new.quote_id and position = new.position) then
        raise exception 'the shares of a line must add up to it' using errcode = 'check_violation';
      end if;
      return null;
    end $$`.execute(db)
  await sql`
    create constraint trigger adds_up after insert on quote_line_share
    deferrable initially deferred for each row execute function quote_shares_add_up()`.execute(db)
}
