import { type Kysely, sql } from 'kysely'

export async function up(db: Kysely<any>): Promise<void> {
  await accounts(db)
  await ratesAndBusiness(db)
  await requests(db)
  await quotes(db)
  await days(db)
  await records(db)
}

async function accounts(db: Kysely<any>) {
  await sql`
    create table account (
      id bigint generated always as identity primary key,
      email text not null,
      name text not null,
      role text not null check (role in ('owner', 'helper')),
      password_hash text not null,
      made_at timestamptz not null,
      ended_at timestamptz,
      check (role <> 'owner' or ended_at is null)
    )`.execute(db)
  await sql`create unique index account_email on account (lower(email)) where ended_at is null`.execute(db)
  await sql`create unique index account_one_owner on account (role) where role = 'owner'`.execute(db)
  await sql`
    create table session (
      secret_hash text primary key,
      account_id bigint not null references account on delete cascade,
      made_at timestamptz not null,
      seen_at timestamptz not null,
      ends_at timestamptz not null
    )`.execute(db)
  await sql`
    create table sign_in_failure (
      who_hash text primary key,
      failures integer not null,
      last_at timestamptz not null
    )`.execute(db)
}

async function ratesAndBusiness(db: Kysely<any>) {
  await sql`
    create table business (
      "only" boolean primary key default true check ("only"),
      name text not null,
      phone text not null,
      email text not null,
      units text not null check (units in ('us', 'metric')),
      currency text not null check (currency ~ '^[A-Z]{3}$'),
      time_zone text not null,
      crew_hours_a_day numeric(6,2) not null check (crew_hours_a_day > 0),
      quote_holds_days integer not null check (quote_holds_days between 1 and 365),
      answer_within_days integer not null check (answer_within_days between 1 and 30),
      working_days integer[] not null check (working_days <@ array[1,2,3,4,5,6,7] and cardinality(working_days) > 0)
    )`.execute(db)
  await sql`
    create table rate_table (
      id bigint generated always as identity primary key,
      version integer not null unique,
      body jsonb not null,
      made_at timestamptz not null,
      made_by bigint not null references account
    )`.execute(db)
  await sql`
    create function refuse_change() returns trigger language plpgsql as $$
    begin
      raise exception '% rows are kept as they were made', tg_table_name using errcode = 'integrity_constraint_violation';
    end $$`.execute(db)
  await keepAsMade(db, 'rate_table')
}

async function requests(db: Kysely<any>) {
  await sql`
    create table customer (
      id bigint generated always as identity primary key,
      name text not null,
      phone text not null,
      email text not null,
      check (phone <> '' or email <> '')
    )`.execute(db)
  await sql`
    create table place (
      id bigint generated always as identity primary key,
      customer_id bigint not null references customer,
      street text not null,
      postcode text not null,
      gate text not null,
      dog text not null
    )`.execute(db)
  await sql`create table request_year (year integer primary key, last integer not null)`.execute(db)
  await sql`
    create table quote_request (
      id bigint generated always as identity primary key,
      number text not null unique,
      stage text not null check (stage in ('new', 'visit set', 'measured', 'quoted', 'booked', 'part done',
        'done', 'paid', 'called off', 'not taken', 'can''t do', 'lapsed', 'on hold')),
      stage_at timestamptz not null,
      customer_id bigint not null references customer,
      place_id bigint not null references place,
      submission_key uuid not null unique,
      put_in_by text not null check (put_in_by in ('homeowner', 'staff')),
      language text not null check (language in ('en', 'es')),
      preferred_times text not null,
      note text not null,
      told jsonb not null,
      measured jsonb,
      visit_left_out boolean not null default false,
      arrived_at timestamptz not null
    )`.execute(db)
  await sql`create index quote_request_stage on quote_request (stage, stage_at)`.execute(db)
  await sql`
    create table ballpark (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null unique references quote_request,
      rate_table_id bigint not null references rate_table,
      method integer not null,
      low numeric(12,2) not null,
      likely numeric(12,2) not null,
      high numeric(12,2) not null,
      result jsonb not null,
      made_at timestamptz not null,
      check (0 <= low and low <= likely and likely <= high)
    )`.execute(db)
  await keepAsMade(db, 'ballpark')
  await sql`
    create table visit (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      starts_at timestamptz not null,
      made_at timestamptz not null,
      done_at timestamptz,
      called_off_at timestamptz
    )`.execute(db)
  await sql`
    create unique index visit_one_ahead on visit (quote_request_id)
    where done_at is null and called_off_at is null`.execute(db)
}

async function quotes(db: Kysely<any>) {
  await sql`
    create table quote (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      revision integer not null check (revision > 0),
      rate_table_id bigint not null references rate_table,
      job jsonb not null,
      note text not null,
      total numeric(12,2) not null check (total >= 0),
      currency text not null,
      crew_hours numeric(8,2) not null check (crew_hours > 0),
      crew_hours_worked_out numeric(8,2) not null,
      holds_until date not null,
      made_by bigint not null references account,
      made_at timestamptz not null,
      unique (quote_request_id, revision)
    )`.execute(db)
  await sql`
    create table quote_line (
      id bigint generated always as identity primary key,
      quote_id bigint not null references quote,
      position integer not null,
      kind text not null check (kind in ('finish', 'size', 'extra', 'travel', 'minimum', 'other')),
      slug text,
      description text,
      quantity numeric,
      unit text,
      rate numeric,
      worked_out numeric(12,2),
      amount numeric(12,2) not null,
      reason text,
      unique (quote_id, position),
      check (kind <> 'other' or description <> ''),
      check (amount is not distinct from worked_out or reason <> '')
    )`.execute(db)
  await keepAsMade(db, 'quote')
  await keepAsMade(db, 'quote_line')
  await sql`
    create function quote_adds_up() returns trigger language plpgsql as $$
    declare the_quote bigint := coalesce((to_jsonb(new)->>'quote_id')::bigint, (to_jsonb(new)->>'id')::bigint);
    begin
      if (select total from quote where id = the_quote)
         <> (select coalesce(sum(amount), 0) from quote_line where quote_id = the_quote) then
        raise exception 'the lines of a quote must add up to its total' using errcode = 'check_violation';
      end if;
      return null;
    end $$`.execute(db)
  for (const table of ['quote', 'quote_line']) {
    await sql`
      create constraint trigger adds_up after insert on ${sql.table(table)}
      deferrable initially deferred for each row execute function quote_adds_up()`.execute(db)
  }
  await sql`
    create table acceptance (
      quote_id bigint primary key references quote,
      typed_name text not null check (typed_name <> ''),
      accepted_at timestamptz not null
    )`.execute(db)
  await sql`
    create function only_newest_accepted() returns trigger language plpgsql as $$
    begin
      if exists (select 1 from quote mine join quote other on other.quote_request_id = mine.quote_request_id
                 where mine.id = new.quote_id and other.revision > mine.revision) then
        raise exception 'only the newest revision can be accepted' using errcode = 'check_violation',
          constraint = 'acceptance_newest';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger newest before insert on acceptance
    for each row execute function only_newest_accepted()`.execute(db)
  await keepAsMade(db, 'acceptance')
}

async function days(db: Kysely<any>) {
  await sql`
    create table work_day (
      day date primary key,
      room_hours numeric(6,2) not null check (room_hours >= 0),
      taken_hours numeric(6,2) not null default 0,
      constraint work_day_has_room check (taken_hours between 0 and room_hours)
    )`.execute(db)
  await sql`
    create table booking (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      quote_id bigint not null references acceptance,
      first_day date not null,
      made_at timestamptz not null,
      called_off_at timestamptz
    )`.execute(db)
  await sql`
    create unique index booking_one_standing on booking (quote_request_id)
    where called_off_at is null`.execute(db)
  await sql`
    create table booking_day (
      booking_id bigint not null references booking,
      day date not null references work_day,
      hours numeric(6,2) not null check (hours > 0),
      primary key (booking_id, day)
    )`.execute(db)
  await sql`
    create function take_room() returns trigger language plpgsql as $$
    begin
      if tg_op <> 'INSERT' then
        update work_day set taken_hours = taken_hours - old.hours where day = old.day;
      end if;
      if tg_op <> 'DELETE' then
        update work_day set taken_hours = taken_hours + new.hours where day = new.day;
      end if;
      return null;
    end $$`.execute(db)
  await sql`
    create trigger take_room after insert or update or delete on booking_day
    for each row execute function take_room()`.execute(db)
}

async function records(db: Kysely<any>) {
  await sql`
    create table link (
      id bigint generated always as identity primary key,
      purpose text not null check (purpose in ('own page', 'booking')),
      quote_request_id bigint not null references quote_request,
      nonce text not null,
      token_hash text not null unique,
      made_at timestamptz not null,
      ends_at timestamptz,
      revoked_at timestamptz
    )`.execute(db)
  await sql`
    create unique index link_one_standing on link (quote_request_id, purpose)
    where revoked_at is null`.execute(db)
  await sql`
    create table history (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      at timestamptz not null,
      by_kind text not null check (by_kind in ('homeowner', 'staff', 'clock')),
      account_id bigint references account,
      verb text not null,
      detail jsonb not null,
      check ((by_kind = 'staff') = (account_id is not null))
    )`.execute(db)
  await sql`create index history_quote_request on history (quote_request_id, id)`.execute(db)
  await sql`
    create table outbox (
      id uuid primary key,
      kind text not null,
      quote_request_id bigint references quote_request,
      recipient text not null check (recipient in ('homeowner', 'owner')),
      made_at timestamptz not null,
      sent_at timestamptz,
      attempts integer not null default 0,
      last_fault text
    )`.execute(db)
  await sql`create index outbox_unsent on outbox (made_at) where sent_at is null`.execute(db)
}

async function keepAsMade(db: Kysely<any>, table: string) {
  await sql`
    create trigger keep_as_made before update or delete on ${sql.table(table)}
    for each row execute function refuse_change()`.execute(db)
}
