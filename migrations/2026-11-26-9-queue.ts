import { type Kysely, sql } from 'kysely'

/**
 * The place of a request in the queue is kept with it: its step and when that is due, by triggers on whatever decides
 * them, so that no verb has to think of it. So is a text by which it is found. Functions are replaced where they are
 * left over: restoring a backup drops tables and what triggers call, nothing else.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await columns(db)
  await stepAndDue(db)
  await sentAndSeen(db)
  await textToSearch(db)
}

async function columns(db: Kysely<any>) {
  await sql`
    alter table quote_request
      add column step text,
      add column due_at timestamptz,
      add column calls integer not null default 0 check (calls >= 0),
      add column call_again_at timestamptz,
      add column on_hold_until date,
      add column given_to bigint references account,
      add column news_from bigint,
      add column junk_at timestamptz,
      add column taken_up_from bigint unique references quote_request`.execute(db)
  await sql`
    create index quote_request_queue on quote_request (step, due_at, id) include (on_hold_until, given_to)
    where step is not null`.execute(db)
  await sql`create index quote_request_news on quote_request (news_from) where news_from is not null`.execute(
    db,
  )
  await sql`
    create index quote_request_held on quote_request (on_hold_until, id)
    where on_hold_until is not null and step is not null`.execute(db)
  await sql`create index quote_request_junk on quote_request (junk_at, id) where junk_at is not null`.execute(
    db,
  )
  await sql`create index if not exists quote_request_customer on quote_request (customer_id)`.execute(db)
  await sql`create index if not exists quote_request_place on quote_request (place_id)`.execute(db)
  await sql`create index visit_of_request on visit (quote_request_id)`.execute(db)
  await sql`create index outbox_of_request on outbox (quote_request_id)`.execute(db)
}

async function stepAndDue(db: Kysely<any>) {
  // As the homeowner's own page promises it: the end of so many working days later, where the business is.
  await sql`
    create or replace function answer_due(since timestamptz) returns timestamptz language plpgsql stable as $$
    declare
      promise record;
      day date;
      days_left integer;
    begin
      select time_zone, answer_within_days, working_days into promise from business;
      if not found then
        return since;
      end if;
      day := (since at time zone promise.time_zone)::date;
      days_left := promise.answer_within_days;
      while days_left > 0 loop
        day := day + 1;
        if extract(isodow from day)::integer = any (promise.working_days) then
          days_left := days_left - 1;
        end if;
      end loop;
      return (day + 1)::timestamp at time zone promise.time_zone;
    end $$`.execute(db)
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
    create trigger place_in_queue before insert or update on quote_request
    for each row execute function place_in_queue()`.execute(db)
  await sql`
    create or replace function place_request_in_queue() returns trigger language plpgsql as $$
    begin
      update quote_request set stage = stage where id = case tg_table_name
        when 'acceptance' then (select quote_request_id from quote where id = (to_jsonb(new)->>'quote_id')::bigint)
        else (to_jsonb(new)->>'quote_request_id')::bigint end;
      return null;
    end $$`.execute(db)
  for (const table of ['visit', 'quote', 'acceptance', 'booking'])
    await sql`
      create trigger place_in_queue after insert or update on ${sql.table(table)}
      for each row execute function place_request_in_queue()`.execute(db)
  await sql`update quote_request set stage = stage`.execute(db)
}

async function sentAndSeen(db: Kysely<any>) {
  await sql`
    create table quote_sent (
      quote_id bigint primary key references quote,
      sent_at timestamptz not null,
      sent_by bigint not null references account
    )`.execute(db)
  await sql`
    create table quote_seen (
      quote_id bigint primary key references quote,
      seen_at timestamptz not null
    )`.execute(db)
}

async function textToSearch(db: Kysely<any>) {
  await sql`create extension if not exists pg_trgm`.execute(db)
  await sql`
    create table request_text (
      quote_request_id bigint primary key references quote_request,
      plain text not null
    )`.execute(db)
  await sql`create index request_text_trigrams on request_text using gin (plain gin_trgm_ops)`.execute(db)
  // The same as plainText in src/queue/plain-text.ts. Every word of the text has a blank before it, the first one too.
  await sql`
    create or replace function plain_text(typed text) returns text language sql immutable as $$
      select replace(replace(replace(translate(
        lower(regexp_replace(normalize(typed, NFKD), '[\\u0300-\\u036f]', '', 'g') collate "pg_c_utf8"),
        'øłđς''’‘', 'oldσ'), 'ß', 'ss'), 'æ', 'ae'), 'œ', 'oe')
    $$`.execute(db)
  await sql`
    create or replace function request_text_of(wanted bigint) returns text language sql stable as $$
      select ' ' || plain_text(concat_ws(' ', name, email, phone, street, postcode, number, note,
          (select string_agg(detail->>'note', ' ' order by id) from history
            where quote_request_id = wanted and verb = 'noted')))
        || ' ' || concat_ws(' ', regexp_replace(phone, '\\D', '', 'g'), regexp_replace(number, '\\D', '', 'g'),
          lower(regexp_replace(postcode, '[^[:alnum:]]', '', 'g')))
      from quote_request join customer on customer.id = customer_id join place on place.id = place_id
      where quote_request.id = wanted
    $$`.execute(db)
  await sql`
    create or replace function keep_request_text() returns trigger language plpgsql as $$
    begin
      insert into request_text (quote_request_id, plain)
      select id, request_text_of(id) from quote_request
      where case tg_table_name
        when 'quote_request' then id = new.id
        when 'customer' then customer_id = new.id
        when 'place' then place_id = new.id
        else id = (to_jsonb(new)->>'quote_request_id')::bigint end
      on conflict (quote_request_id) do update set plain = excluded.plain;
      return null;
    end $$`.execute(db)
  for (const [table, when] of [
    ['quote_request', 'insert or update of number, note, customer_id, place_id'],
    ['customer', 'update of name, email, phone'],
    ['place', 'update of street, postcode'],
  ] as const)
    await sql`
      create trigger keep_request_text after ${sql.raw(when)} on ${sql.table(table)}
      for each row execute function keep_request_text()`.execute(db)
  await sql`
    create trigger keep_request_text after insert on history
    for each row when (new.verb = 'noted') execute function keep_request_text()`.execute(db)
  await sql`insert into request_text select id, request_text_of(id) from quote_request`.execute(db)
}
