import { type Kysely, sql } from 'kysely'

/**
 * A price with choices: each combination as it was offered, with its beds, lines and hours. Accepting one puts what it
 * comes to into the quote, once, and nothing else; and such a quote can't be accepted before.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table quote_request add column agreed jsonb`.execute(db)
  await sql`alter table quote add column choices jsonb, add column picked text`.execute(db)
  await sql`
    create or replace function lines_come_to(lines jsonb) returns numeric language sql immutable
    return (select coalesce(sum((line->>'amount')::numeric), 0) from jsonb_array_elements(lines) line)`.execute(
    db,
  )
  await sql`
    create table quote_variant (
      quote_id bigint not null references quote,
      picks text not null check (picks ~ '^[01]{0,2}-[01]{0,4}$'),
      job jsonb not null,
      understood jsonb not null,
      tax jsonb,
      total numeric(12,2) not null check (total >= 0),
      labor_hours numeric(8,2) not null check (labor_hours > 0),
      labor_hours_worked_out numeric(8,2) not null,
      lines jsonb not null,
      primary key (quote_id, picks),
      constraint quote_variant_adds_up check (lines_come_to(lines) = total)
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on quote_variant
    for each row execute function refuse_change()`.execute(db)
  await sql`
    alter table quote
      add constraint quote_picked_was_offered foreign key (id, picked) references quote_variant (quote_id, picks),
      add constraint quote_picked_of_choices check (picked is null or choices is not null)`.execute(db)
  await sql`
    create or replace function refuse_change_of_quote() returns trigger language plpgsql as $$
    declare
      figures text[] := array['job', 'understood', 'tax', 'total', 'labor_hours', 'labor_hours_worked_out'];
    begin
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
    create function refuse_change_of_line() returns trigger language plpgsql as $$
    begin
      if tg_op = 'DELETE' and exists (select 1 from quote where id = old.quote_id and picked is not null)
         and not exists (select 1 from acceptance where quote_id = old.quote_id) then
        return old;
      end if;
      raise exception '% rows are kept as they were made', tg_table_name using errcode = 'integrity_constraint_violation';
    end $$`.execute(db)
  await sql`drop trigger keep_as_made on quote_line`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on quote_line
    for each row execute function refuse_change_of_line()`.execute(db)
  await sql`
    create function picked_before_accepted() returns trigger language plpgsql as $$
    begin
      if exists (select 1 from quote where id = new.quote_id and choices is not null and picked is null) then
        raise exception 'a price with choices is accepted with what was picked' using errcode = 'check_violation',
          constraint = 'acceptance_picked';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger picked before insert on acceptance
    for each row execute function picked_before_accepted()`.execute(db)
}
