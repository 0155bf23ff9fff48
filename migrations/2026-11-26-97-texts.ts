import { type Kysely, sql } from 'kysely'

/**
 * A message goes as mail or as a text, by itself or passed on by hand; `tried_from` is when it was last put on, and what
 * was given up says whether it failed or was dropped. The one gateway for texts, and the answers that it brought.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table outbox
      add column way text not null default 'mail' check (way in ('mail', 'text')),
      add column passed_on_by bigint references account,
      add column tried_from timestamptz`.execute(db)
  await sql`update outbox set tried_from = made_at`.execute(db)
  await sql`alter table outbox alter column tried_from set not null`.execute(db)
  await sql`
    update outbox set last_fault = replace(last_fault, 'stopped: ', 'dropped: ')
    where last_fault in ('stopped: out of date', 'stopped: too many')`.execute(db)
  await sql`
    create table text_gateway (
      "only" boolean primary key default true check ("only"),
      address text not null,
      nonce text not null,
      set_at timestamptz not null
    )`.execute(db)
  await sql`
    create table text_reply (
      id text primary key,
      received_at timestamptz not null
    )`.execute(db)
  await underCall(db)
}

// Whoever couldn't be told something is to be called, whatever else is next: a failed message is kept with its request.
async function underCall(db: Kysely<any>) {
  await sql`alter table quote_request add column unreached_at timestamptz`.execute(db)
  await sql`
    create or replace function place_in_queue() returns trigger language plpgsql as $$
    declare
      accepted timestamptz;
    begin
      case new.stage
        when 'new' then
          new.step := case when new.visit_left_out then 'Price' else 'Call' end;
          new.due_at := answer_due(new.stage_at);
        when 'visit set' then
          new.step := 'Measure';
          new.due_at := (select starts_at from visit
            where quote_request_id = new.id and done_at is null and called_off_at is null);
        when 'measured' then
          new.step := 'Price';
          new.due_at := answer_due(new.stage_at);
        when 'quoted' then
          accepted := (select accepted_at from quote left join acceptance on quote_id = quote.id
            where quote_request_id = new.id order by revision desc limit 1);
          new.step := case when accepted is null then 'Follow up' else 'Call' end;
          new.due_at := coalesce(accepted, new.stage_at + interval '96 hours');
        when 'booked', 'part done' then
          new.step := 'Load';
          new.due_at := (select first_day::timestamp at time zone time_zone from booking, business
            where quote_request_id = new.id and called_off_at is null);
        when 'done' then
          new.step := 'Bill';
          new.due_at := new.stage_at;
        when 'billed' then
          new.step := 'Collect';
          new.due_at := new.stage_at;
        else
          new.step := null;
          new.due_at := null;
      end case;
      if new.step is not null and new.unreached_at is not null then
        new.step := 'Call';
        new.due_at := new.unreached_at;
      end if;
      if tg_op = 'UPDATE' and (new.stage_at <> old.stage_at or new.stage <> old.stage
          or (new.step is distinct from old.step and old.junk_at is null and new.junk_at is null)) then
        new.calls := 0;
        new.call_again_at := null;
        new.on_hold_until := null;
        new.junk_at := null;
      end if;
      if new.junk_at is not null then
        new.step := null;
      end if;
      new.due_at := case when new.step is not null then coalesce(new.call_again_at, new.due_at, new.stage_at) end;
      return new;
    end $$`.execute(db)
  await sql`
    create or replace function keep_unreached() returns trigger language plpgsql as $$
    begin
      update quote_request set unreached_at = failed.since
      from (select min(tried_from) as since from outbox
        where quote_request_id = new.quote_request_id and recipient = 'homeowner' and sent_at is null
          and starts_with(last_fault, 'stopped: ')) as failed
      where id = new.quote_request_id and unreached_at is distinct from failed.since;
      return null;
    end $$`.execute(db)
  await sql`
    create trigger keep_unreached after update of last_fault, sent_at on outbox
    for each row when (new.last_fault is distinct from old.last_fault or new.sent_at is distinct from old.sent_at)
    execute function keep_unreached()`.execute(db)
}
