import { type Kysely, sql } from 'kysely'

/**
 * A person can be erased although what was accepted and billed never changes: what names somebody in rows that are kept as
 * they were made may become blank, and nothing else. The one other value that such a row can have is worked out here by
 * `blanked`, from the row alone, and taken only where its request is marked as erased, or the years of its papers are over.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await marks(db)
  await blanks(db)
  await door(db)
  await marksStay(db)
  await nothingMore(db)
}

async function marks(db: Kysely<any>) {
  await sql`
    alter table customer add column erased_at timestamptz, add constraint customer_blank
      check (erased_at is null or (name = '–' and phone = '' and email = '' and phone_key is null and email_key is null))`.execute(
    db,
  )
  await sql`
    alter table quote_request
      add column erased_at timestamptz,
      add column papers_erased_at timestamptz,
      add constraint quote_request_blank check (erased_at is null or (note = '' and preferred_times = ''
        and told->'beds' = '[]' and coalesce(measured->'beds' = '[]', true) and agreed is null and content_hash is null))`.execute(
    db,
  )
  await sql`
    alter table accepted_text add column digest_before text,
      add constraint accepted_text_digest_before check (digest_before is null or text = '–')`.execute(db)
}

/** Jobs as they were typed keep how many stops they had: what falls onto each is a figure. */
async function blanks(db: Kysely<any>) {
  await sql`
    create or replace function blank_told(told jsonb) returns jsonb language sql immutable as $$
      select case when jsonb_typeof(told) = 'object' then
        '{"beds": [], "extras": [], "postcode": ""}'::jsonb || case when told ? 'stops' then
          jsonb_build_object('stops', (select coalesce(jsonb_agg('{"name": "–", "note": "", "spot": ""}'::jsonb), '[]'::jsonb)
            from jsonb_array_elements(told->'stops'))) else '{}'::jsonb end
        else told end
    $$`.execute(db)
  await sql`
    create or replace function blank_understood(understood jsonb) returns jsonb language sql immutable as $$
      select case when jsonb_typeof(understood) = 'object' then understood || '{"postcode": ""}'::jsonb else understood end
    $$`.execute(db)
  await sql`
    create or replace function blank_text(words jsonb) returns jsonb language sql immutable as $$
      select case when words in ('null'::jsonb, '""'::jsonb) then words else '"–"'::jsonb end
    $$`.execute(db)
  await sql`
    create or replace function blank_line(line jsonb) returns jsonb language sql immutable as $$
      select line || jsonb_build_object('description', blank_text(coalesce(line->'description', 'null'::jsonb)),
        'reason', blank_text(coalesce(line->'reason', 'null'::jsonb)))
    $$`.execute(db)
  await sql`
    create or replace function blank_terms(terms jsonb) returns jsonb language sql immutable as $$
      select terms || jsonb_build_object('exempt', blank_text(terms->'exempt'))
        || case when terms ? 'certificate' then jsonb_build_object('certificate', blank_text(terms->'certificate'))
          else '{}'::jsonb end
        || case when jsonb_typeof(terms->'adjustment') = 'object' then jsonb_build_object('adjustment',
          (terms->'adjustment') || jsonb_build_object('reason', blank_text(terms->'adjustment'->'reason'))) else '{}'::jsonb end
        || case when jsonb_typeof(terms->'rates') = 'object' then jsonb_build_object('rates',
          (terms->'rates') || jsonb_build_object('reason', blank_text(terms->'rates'->'reason'))) else '{}'::jsonb end
    $$`.execute(db)
  await blankedRows(db)
}

async function blankedRows(db: Kysely<any>) {
  await sql`
    create or replace function blanked(the_table text, was jsonb) returns jsonb language sql immutable as $$
      select case the_table
        when 'quote' then was || jsonb_build_object('job', blank_told(was->'job'), 'note', '', 'why', null,
          'understood', blank_understood(was->'understood'), 'terms', blank_terms(was->'terms'))
        when 'quote_line' then blank_line(was)
        when 'quote_variant' then was || jsonb_build_object('job', blank_told(was->'job'),
          'understood', blank_understood(was->'understood'),
          'lines', (select coalesce(jsonb_agg(blank_line(line) order by place), '[]'::jsonb)
            from jsonb_array_elements(was->'lines') with ordinality as one(line, place)))
        when 'acceptance' then was || '{"typed_name": "–"}'::jsonb
        when 'accepted_text' then was || jsonb_build_object('text', '–',
          'digest', encode(sha256(convert_to('–', 'UTF8')), 'hex'),
          'digest_before', case when was->>'text' = '–' then was->'digest_before' else was->'digest' end)
        when 'on_hand_move' then was || '{"note": ""}'::jsonb
        when 'supply_order_step' then was || '{"note": ""}'::jsonb
        when 'job_closing' then was || '{"note": ""}'::jsonb
        when 'job_dump_fee' then was || '{"words": ""}'::jsonb
        when 'dig_ticket' then was || jsonb_build_object('number', blank_text(was->'number'), 'answers', '[]'::jsonb)
        when 'dig_decision' then was || jsonb_build_object('name', '– ' || (was->>'id'))
        when 'job_hours' then was || '{"name": "–", "account_id": null}'::jsonb
        when 'bill' then was || jsonb_build_object('bill_to', '{"name": "–", "address": "", "email": ""}'::jsonb,
          'place', '', 'order_number', '', 'tax_note', null, 'reason', blank_text(was->'reason'),
          'terms', blank_terms(was->'terms'))
        when 'bill_line' then case when was->>'kind' = 'other' then was || '{"words": {"en": "–", "es": "–"}}'::jsonb
          else was end
        else null end
    $$`.execute(db)
}

async function door(db: Kysely<any>) {
  await sql`
    create or replace function may_be_blank(the_table text, was jsonb) returns boolean language plpgsql stable as $$
    declare
      wanted bigint := (was->>'quote_request_id')::bigint;
    begin
      if the_table = 'supply_order_step' then
        return exists (select 1 from supply_order_job job join quote_request on quote_request.id = job.quote_request_id
          where job.supply_order_id = (was->>'supply_order_id')::bigint and erased_at is not null);
      elsif the_table in ('quote_line', 'quote_variant', 'acceptance', 'accepted_text') then
        wanted := (select quote_request_id from quote where id = (was->>'quote_id')::bigint);
      elsif the_table in ('job_hours', 'job_dump_fee') then
        wanted := (select quote_request_id from job_closing where id = (was->>'closing_id')::bigint);
      elsif the_table = 'bill_line' then
        wanted := (select quote_request_id from bill where id = (was->>'bill_id')::bigint);
      end if;
      return exists (select 1 from quote_request where id = wanted
        and case when the_table in ('bill', 'bill_line', 'job_hours') then papers_erased_at else erased_at end is not null);
    end $$`.execute(db)
  await sql`
    create or replace function becomes_blank(the_table text, was jsonb, now_is jsonb) returns boolean
    language sql stable as $$
      select coalesce(now_is = blanked(the_table, was), false) and may_be_blank(the_table, was)
    $$`.execute(db)
  await sql`
    create or replace function refuse_change() returns trigger language plpgsql as $$
    begin
      if tg_op = 'UPDATE' and becomes_blank(tg_table_name, to_jsonb(old), to_jsonb(new)) then
        return new;
      end if;
      raise exception '% rows are kept as they were made', tg_table_name using errcode = 'integrity_constraint_violation';
    end $$`.execute(db)
  await doorOfQuotes(db)
}

// As they were, and the same way out before it.
async function doorOfQuotes(db: Kysely<any>) {
  await sql`
    create or replace function refuse_change_of_quote() returns trigger language plpgsql as $$
    declare
      figures text[] := array['job', 'understood', 'tax', 'total', 'labor_hours', 'labor_hours_worked_out'];
    begin
      if tg_op = 'UPDATE' and becomes_blank('quote', to_jsonb(old), to_jsonb(new)) then
        return new;
      end if;
      if tg_op = 'UPDATE' and old.understood is null
         and to_jsonb(new) - 'understood' = to_jsonb(old) - 'understood' then
        return new;
      end if;
      if tg_op = 'UPDATE' and old.picked is null and new.picked is not null
         and to_jsonb(new) - figures - 'picked' = to_jsonb(old) - figures - 'picked'
         and exists (select 1 from quote_variant v where v.quote_id = new.id and v.picks = new.picked
           and v.job = new.job and v.understood = new.understood and v.tax is not distinct from new.tax
           and v.total = new.total and v.labor_hours = new.labor_hours
           and v.labor_hours_worked_out = new.labor_hours_worked_out) then
        return new;
      end if;
      raise exception '% rows are kept as they were made', tg_table_name using errcode = 'integrity_constraint_violation';
    end $$`.execute(db)
  await sql`
    create or replace function refuse_change_of_line() returns trigger language plpgsql as $$
    begin
      if tg_op = 'UPDATE' and becomes_blank('quote_line', to_jsonb(old), to_jsonb(new)) then
        return new;
      end if;
      if tg_op = 'DELETE' and exists (select 1 from quote where id = old.quote_id and picked is not null)
         and not exists (select 1 from acceptance where quote_id = old.quote_id) then
        return old;
      end if;
      raise exception '% rows are kept as they were made', tg_table_name using errcode = 'integrity_constraint_violation';
    end $$`.execute(db)
}

/** What is erased stays so. Nobody is while money is owed or work is ahead, and no paper is before its years are over. */
async function marksStay(db: Kysely<any>) {
  await sql`
    create or replace function papers_kept_until(wanted bigint) returns date language sql stable as $$
      select make_date(extract(year from last_day)::integer + (select (billing->>'keepYears')::integer from business), 12, 31)
      from (select greatest(
        (select max(day) from bill where quote_request_id = wanted),
        (select max(day) from payment where quote_request_id = wanted),
        (select max(day) from fee where quote_request_id = wanted),
        (select max(last_day) from job_closing where quote_request_id = wanted)) as last_day) as known
      where last_day is not null
    $$`.execute(db)
  await sql`
    create or replace function holds_money(wanted bigint) returns boolean language sql stable as $$
      select case when exists (select 1 from bill where quote_request_id = wanted) then money_owed(wanted) <> 0
        else (select coalesce(sum(amount), 0) from payment where quote_request_id = wanted) <> 0
          and not exists (select 1 from deposit_settled where quote_request_id = wanted) end
    $$`.execute(db)
  await sql`
    create or replace function erased_stays() returns trigger language plpgsql as $$
    declare
      ended boolean := new.stage in ('paid', 'called off', 'not taken', 'can''t do', 'lapsed');
    begin
      if tg_op = 'INSERT' then
        if new.erased_at is not null or new.papers_erased_at is not null then
          raise exception 'nothing begins as erased' using errcode = 'check_violation', constraint = 'erased_stays';
        end if;
        return new;
      end if;
      if (old.erased_at is not null and (new.erased_at is distinct from old.erased_at or new.stage <> old.stage))
         or (old.papers_erased_at is not null and new.papers_erased_at is distinct from old.papers_erased_at) then
        raise exception 'what is erased stays so' using errcode = 'check_violation', constraint = 'erased_stays';
      end if;
      if old.erased_at is null and new.erased_at is not null and (not ended or holds_money(new.id)) then
        raise exception 'work is ahead, or money is owed' using errcode = 'check_violation', constraint = 'erased_over';
      end if;
      if old.papers_erased_at is null and new.papers_erased_at is not null and (not ended
          or papers_kept_until(new.id) >= (new.papers_erased_at at time zone (select time_zone from business))::date) then
        raise exception 'the years of these papers are not over' using errcode = 'check_violation',
          constraint = 'papers_kept';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger erased_stays before insert or update on quote_request
    for each row execute function erased_stays()`.execute(db)
}

/**
 * Nothing is added to what is erased. The key of its request is looked at first, which waits for whoever holds that row:
 * so what was begun meanwhile is seen.
 */
async function nothingMore(db: Kysely<any>) {
  await sql`
    create or replace function refuse_of_erased() returns trigger language plpgsql as $$
    begin
      if exists (select 1 from quote_request where id = new.quote_request_id and erased_at is not null) then
        raise exception 'its person is erased' using errcode = 'check_violation', constraint = 'not_of_erased';
      end if;
      return null;
    end $$`.execute(db)
  for (const table of [
    ...['history', 'quote', 'request_photo', 'job_photo', 'job_trouble', 'job_closing', 'dig_ticket'],
    ...['dig_decision', 'job_certificate', 'purchase_order', 'bill', 'outbox'],
  ])
    await sql`
      create trigger sees_erased after insert or update of quote_request_id on ${sql.table(table)}
      for each row execute function refuse_of_erased()`.execute(db)
}
