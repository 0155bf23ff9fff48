import { type Kysely, sql } from 'kysely'

/**
 * Deposits: what the owner allows of them, what a price asks for, and payments as rows that are only ever added: one that
 * was wrong is undone by a row of the opposite amount. What is held of an ended request keeps it under Collect until it
 * is settled.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business add column deposits jsonb not null
    default '{"cap": null, "holdsDay": true, "notice": {"en": "", "es": ""}}'`.execute(db)
  await sql`alter table quote add column conditions jsonb`.execute(db)
  await payments(db)
  await underCollect(db)
}

async function payments(db: Kysely<any>) {
  await sql`
    create table payment (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      nth integer not null check (nth > 0),
      kind text not null check (kind in ('deposit', 'payment', 'refund')),
      amount numeric(12,2) not null check (amount <> 0),
      day date not null,
      way text not null check (way in ('cash', 'check', 'card', 'transfer', 'other')),
      undoes bigint unique references payment,
      made_at timestamptz not null,
      made_by bigint not null references account,
      constraint payment_in_turn unique (quote_request_id, nth),
      constraint payment_sign check (undoes is not null or (amount < 0) = (kind = 'refund'))
    )`.execute(db)
  await sql`
    create function payment_fits() returns trigger language plpgsql as $$
    begin
      if new.undoes is not null and not exists (select 1 from payment undone where undone.id = new.undoes
          and undone.undoes is null and undone.amount = -new.amount and undone.kind = new.kind
          and undone.quote_request_id = new.quote_request_id) then
        raise exception 'what undoes a payment is the same with the opposite amount' using errcode = 'check_violation',
          constraint = 'payment_undoes';
      end if;
      if new.amount + (select coalesce(sum(amount), 0) from payment
          where quote_request_id = new.quote_request_id) < 0 then
        raise exception 'no more is given back than was paid' using errcode = 'check_violation',
          constraint = 'payment_not_below_zero';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger fits before insert on payment for each row execute function payment_fits()`.execute(db)
  await sql`
    create table deposit_settled (
      quote_request_id bigint primary key references quote_request,
      kept numeric(12,2) not null check (kept >= 0),
      back numeric(12,2) not null check (back >= 0),
      settled_at timestamptz not null,
      settled_by bigint not null references account
    )`.execute(db)
  for (const table of ['payment', 'deposit_settled']) {
    await sql`
      create trigger keep_as_made before update or delete on ${sql.table(table)}
      for each row execute function refuse_change()`.execute(db)
    await sql`
      create trigger place_in_queue after insert on ${sql.table(table)}
      for each row execute function place_request_in_queue()`.execute(db)
  }
}

// Its name comes after place_in_queue, which leaves an ended request without a step.
async function underCollect(db: Kysely<any>) {
  await sql`
    create or replace function place_under_collect() returns trigger language plpgsql as $$
    begin
      if new.step is null and new.junk_at is null
         and new.stage in ('called off', 'not taken', 'can''t do', 'lapsed')
         and (select coalesce(sum(amount), 0) from payment where quote_request_id = new.id) > 0
         and not exists (select 1 from deposit_settled where quote_request_id = new.id) then
        new.step := 'Collect';
        new.due_at := new.stage_at;
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger place_under_collect before insert or update on quote_request
    for each row execute function place_under_collect()`.execute(db)
}
