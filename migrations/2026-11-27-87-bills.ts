import { type Kysely, sql } from 'kysely'

/**
 * Bills and the credit memos that undo them: snapshots in words of both languages, numbered without gaps within a year by
 * one locked row each, and never changed. At the end of a transaction lines add up to their bill, and a request is billed
 * or paid as its bills, fees and payments say.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business add column billing jsonb not null
    default '{"words": {"en": "", "es": ""}, "link": "", "returnedFee": "0.00", "reportFrom": "2000.00", "keepYears": 7}'`.execute(
    db,
  )
  await stage(db)
  await bills(db)
  await numbers(db)
  await lines(db)
  await paymentsOfBills(db)
  await standing(db)
  await dueWithBill(db)
  await closingStands(db)
}

async function stage(db: Kysely<any>) {
  const { rows } = await sql<{ made: string }>`
    select pg_get_constraintdef(oid) as made from pg_constraint
    where conname = 'quote_request_stage_check'`.execute(db)
  const made = rows[0]!.made
  const changed = made.replace("'done'::text", "'done'::text, 'billed'::text")
  if (changed === made) throw new Error('quote_request_stage_check is not as it was.')
  await sql`alter table quote_request drop constraint quote_request_stage_check`.execute(db)
  await sql.raw(`alter table quote_request add constraint quote_request_stage_check ${changed}`).execute(db)
}

async function bills(db: Kysely<any>) {
  await sql`
    create table bill_year (
      kind text not null check (kind in ('bill', 'credit memo')),
      year integer not null,
      last integer not null check (last > 0),
      primary key (kind, year)
    )`.execute(db)
  await sql`
    create table bill (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      kind text not null check (kind in ('bill', 'credit memo')),
      year integer not null,
      nth integer not null,
      number text not null unique,
      day date not null,
      due date not null,
      quote_id bigint not null references quote,
      rate_table_id bigint not null references rate_table,
      terms jsonb not null,
      tax jsonb,
      tax_names jsonb not null,
      tax_note jsonb,
      is_firm boolean not null,
      days_to_pay integer,
      order_number text not null,
      bill_to jsonb not null,
      place text not null,
      area text not null,
      first_day date,
      last_day date,
      part jsonb,
      language text not null check (language in ('en', 'es')),
      currency text not null,
      total numeric(12,2) not null,
      undoes bigint unique references bill,
      reason text not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      unique (kind, year, nth),
      constraint bill_undoes check ((kind = 'credit memo') = (undoes is not null) and (undoes is null or reason <> '')),
      constraint bill_sign check (case kind when 'bill' then total >= 0 else total <= 0 end)
    )`.execute(db)
  await sql`create index bill_request on bill (quote_request_id)`.execute(db)
  await sql`create index bill_day on bill (day)`.execute(db)
  await sql`
    create function bill_fits() returns trigger language plpgsql as $$
    begin
      if new.kind = 'credit memo' and not exists (select 1 from bill undone where undone.id = new.undoes
          and undone.kind = 'bill' and undone.total = -new.total
          and undone.quote_request_id = new.quote_request_id) then
        raise exception 'a credit memo is its bill with the opposite amount' using errcode = 'check_violation',
          constraint = 'bill_undone';
      end if;
      if new.kind = 'bill' and exists (select 1 from bill other where other.quote_request_id = new.quote_request_id
          and other.kind = 'bill' and not exists (select 1 from bill credit where credit.undoes = other.id)) then
        raise exception 'one bill of a request stands at a time' using errcode = 'check_violation',
          constraint = 'bill_one_standing';
      end if;
      return new;
    end $$`.execute(db)
  await sql`create trigger fits before insert on bill for each row execute function bill_fits()`.execute(db)
}

// The row of the year stays locked until the bill stands or nothing does, so that no number is left out.
async function numbers(db: Kysely<any>) {
  await sql`
    create function take_bill_number() returns trigger language plpgsql as $$
    begin
      new.year := extract(year from new.day);
      insert into bill_year (kind, year, last) values (new.kind, new.year, 1)
        on conflict (kind, year) do update set last = bill_year.last + 1 returning last into new.nth;
      new.number := case new.kind when 'bill' then 'B' else 'C' end || lpad((new.year % 100)::text, 2, '0') || '-'
        || lpad(new.nth::text, greatest(4, length(new.nth::text)), '0');
      return new;
    end $$`.execute(db)
  await sql`
    create trigger number_taken before insert on bill for each row execute function take_bill_number()`.execute(
    db,
  )
}

async function lines(db: Kysely<any>) {
  await sql`
    create table bill_line (
      bill_id bigint not null references bill,
      position integer not null,
      kind text not null,
      slug text,
      words jsonb not null,
      quantity jsonb,
      amount numeric(12,2) not null,
      primary key (bill_id, position)
    )`.execute(db)
  await sql`
    create table bill_line_share (
      bill_id bigint not null,
      position integer not null,
      stop integer not null check (stop >= 0),
      amount numeric(12,2) not null,
      primary key (bill_id, position, stop),
      foreign key (bill_id, position) references bill_line (bill_id, position)
    )`.execute(db)
  for (const table of ['bill', 'bill_line', 'bill_line_share'])
    await sql`
      create trigger keep_as_made before update or delete on ${sql.table(table)}
      for each row execute function refuse_change()`.execute(db)
  await sql`
    create function bill_adds_up() returns trigger language plpgsql as $$
    declare the_bill bigint := coalesce((to_jsonb(new)->>'bill_id')::bigint, (to_jsonb(new)->>'id')::bigint);
    begin
      if (select total from bill where id = the_bill)
         <> (select coalesce(sum(amount), 0) from bill_line where bill_id = the_bill) then
        raise exception 'the lines of a bill must add up to its total' using errcode = 'check_violation',
          constraint = 'bill_adds_up';
      end if;
      return null;
    end $$`.execute(db)
  for (const table of ['bill', 'bill_line'])
    await sql`
      create constraint trigger adds_up after insert on ${sql.table(table)}
      deferrable initially deferred for each row execute function bill_adds_up()`.execute(db)
  await sql`
    create function bill_shares_add_up() returns trigger language plpgsql as $$
    begin
      if (select amount from bill_line where bill_id = new.bill_id and position = new.position)
         <> (select sum(amount) from bill_line_share where bill_id = new.bill_id and position = new.position) then
        raise exception 'the shares of a line must add up to it' using errcode = 'check_violation';
      end if;
      return null;
    end $$`.execute(db)
  await sql`
    create constraint trigger adds_up after insert on bill_line_share
    deferrable initially deferred for each row execute function bill_shares_add_up()`.execute(db)
}

/**
 * A tip is beside the amount and pays nothing. What is paid out of a customer's credit, or kept as one, goes the way
 * 'credit': so what all of a customer's requests have of it is the credit, with the opposite sign.
 */
async function paymentsOfBills(db: Kysely<any>) {
  await sql`
    alter table payment
      add column tip numeric(12,2) not null default 0,
      add column returned boolean not null default false,
      drop constraint payment_way_check,
      add constraint payment_way_check check (way in ('cash', 'check', 'card', 'transfer', 'other', 'credit')),
      add constraint payment_tip check (tip = 0 or (kind = 'payment' and sign(tip) = sign(amount) and way <> 'credit')),
      add constraint payment_returned check (not returned or (undoes is not null and way = 'check'))`.execute(
    db,
  )
  await sql`
    create table fee (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      payment_id bigint not null references payment,
      amount numeric(12,2) not null check (amount <> 0),
      day date not null,
      undoes bigint unique references fee,
      made_at timestamptz not null,
      made_by bigint not null references account,
      constraint fee_sign check ((amount < 0) = (undoes is not null))
    )`.execute(db)
  await sql`create index fee_request on fee (quote_request_id)`.execute(db)
  await sql`create index payment_day on payment (day)`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on fee
    for each row execute function refuse_change()`.execute(db)
  await sql`
    create function fee_fits() returns trigger language plpgsql as $$
    begin
      if new.undoes is not null and not exists (select 1 from fee undone where undone.id = new.undoes
          and undone.undoes is null and undone.amount = -new.amount
          and undone.quote_request_id = new.quote_request_id) then
        raise exception 'what undoes a fee is the same with the opposite amount' using errcode = 'check_violation',
          constraint = 'fee_undoes';
      end if;
      return new;
    end $$`.execute(db)
  await sql`create trigger fits before insert on fee for each row execute function fee_fits()`.execute(db)
  await sql`
    create or replace function payment_fits() returns trigger language plpgsql as $$
    declare
      the_head bigint;
    begin
      if new.undoes is not null and not exists (select 1 from payment undone where undone.id = new.undoes
          and undone.undoes is null and undone.amount = -new.amount and undone.kind = new.kind
          and undone.tip = -new.tip and undone.quote_request_id = new.quote_request_id) then
        raise exception 'what undoes a payment is the same with the opposite amount' using errcode = 'check_violation',
          constraint = 'payment_undoes';
      end if;
      if not new.returned and new.amount + (select coalesce(sum(amount), 0) from payment
          where quote_request_id = new.quote_request_id) < 0 then
        raise exception 'no more is given back than was paid' using errcode = 'check_violation',
          constraint = 'payment_not_below_zero';
      end if;
      if new.way = 'credit' and new.amount > 0 then
        select head_id into the_head from customer join quote_request on customer_id = customer.id
          where quote_request.id = new.quote_request_id;
        perform 1 from customer where id = the_head for update;
        if new.amount + (select coalesce(sum(amount), 0) from payment
            join quote_request on quote_request.id = quote_request_id
            join customer on customer.id = customer_id
            where way = 'credit' and head_id = the_head) > 0 then
          raise exception 'no more is paid from a credit than there is' using errcode = 'check_violation',
            constraint = 'payment_credit';
        end if;
      end if;
      return new;
    end $$`.execute(db)
  await sql`alter table customer add column no_checks_since timestamptz`.execute(db)
}

async function standing(db: Kysely<any>) {
  await sql`
    create or replace function money_owed(wanted bigint) returns numeric language sql stable as $$
      select (select coalesce(sum(total), 0) from bill where quote_request_id = wanted)
        + (select coalesce(sum(amount), 0) from fee where quote_request_id = wanted)
        - (select coalesce(sum(amount), 0) from payment where quote_request_id = wanted)
    $$`.execute(db)
  await sql`
    create function stage_fits_money() returns trigger language plpgsql as $$
    declare
      wanted bigint := coalesce((to_jsonb(new)->>'quote_request_id')::bigint, (to_jsonb(new)->>'id')::bigint);
      the_stage text := (select stage from quote_request where id = wanted);
      stands boolean;
    begin
      if not exists (select 1 from bill where quote_request_id = wanted) then
        return null;
      end if;
      stands := exists (select 1 from bill made where quote_request_id = wanted and kind = 'bill'
        and not exists (select 1 from bill credit where credit.undoes = made.id));
      if stands <> (the_stage in ('billed', 'paid')) or (stands and (the_stage = 'paid') <> (money_owed(wanted) = 0)) then
        raise exception 'a request is billed or paid as its bills and payments say' using errcode = 'check_violation',
          constraint = 'stage_fits_money';
      end if;
      return null;
    end $$`.execute(db)
  for (const table of ['bill', 'fee', 'payment'])
    await sql`
      create constraint trigger stage_fits_money after insert on ${sql.table(table)}
      deferrable initially deferred for each row execute function stage_fits_money()`.execute(db)
  await sql`
    create constraint trigger stage_fits_money after update of stage on quote_request
    deferrable initially deferred for each row when (old.stage is distinct from new.stage)
    execute function stage_fits_money()`.execute(db)
}

// Under Collect a bill is due when its terms say, and what is to be given back at once.
async function dueWithBill(db: Kysely<any>) {
  await sql`
    create function due_with_bill() returns trigger language plpgsql as $$
    begin
      if new.stage = 'billed' and new.step = 'Collect' and new.call_again_at is null then
        new.due_at := coalesce((select due::timestamp at time zone time_zone from bill, business
          where quote_request_id = new.id and kind = 'bill' order by bill.id desc limit 1), new.due_at);
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger place_with_bill before insert or update on quote_request
    for each row execute function due_with_bill()`.execute(db)
}

// What was billed is corrected by a credit memo first.
async function closingStands(db: Kysely<any>) {
  await sql`
    create function closing_not_billed() returns trigger language plpgsql as $$
    begin
      if exists (select 1 from bill made where quote_request_id = new.quote_request_id and kind = 'bill'
          and not exists (select 1 from bill credit where credit.undoes = made.id)) then
        raise exception 'there is a bill for this job' using errcode = 'check_violation',
          constraint = 'job_closing_not_billed';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger not_billed before insert on job_closing
    for each row execute function closing_not_billed()`.execute(db)
}
