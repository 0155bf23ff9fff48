import { type Kysely, sql } from 'kysely'

/**
 * The room of a day by who works it: everybody's labor hours on each weekday, Monday first, and their own days off. Their
 * sum stands in the business; null while one number a day counts. What the owner set for a day by hand stays. The
 * function is replaced where it is left over: restoring a backup drops only what triggers call.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table crew_member (
      id bigint generated always as identity primary key,
      name text not null unique check (name <> ''),
      hours text[] not null check (cardinality(hours) = 7)
    )`.execute(db)
  await sql`
    create table crew_member_off (
      id bigint generated always as identity primary key,
      crew_member_id bigint not null references crew_member on delete cascade,
      from_day date not null,
      to_day date not null check (to_day >= from_day),
      unique (crew_member_id, from_day, to_day)
    )`.execute(db)
  await sql`
    alter table business add column weekday_hours text[] check (cardinality(weekday_hours) = 7)`.execute(db)
  await sql`alter table work_day add column by_hand boolean not null default false`.execute(db)
  await sql`
    update work_day set by_hand = true from business where room_hours <> labor_hours_a_day or is_makeup`.execute(
    db,
  )
  await sql`
    create or replace function usual_room(on_day date) returns numeric language plpgsql stable as $$
    declare
      weekday integer := extract(isodow from on_day);
      rules record;
    begin
      select weekday_hours, labor_hours_a_day into rules from business;
      if rules.weekday_hours is null then
        return rules.labor_hours_a_day;
      end if;
      return greatest(0, rules.weekday_hours[weekday]::numeric - coalesce((
        select sum(hours[weekday]::numeric) from crew_member where exists (select from crew_member_off
          where crew_member_id = crew_member.id and on_day between from_day and to_day)), 0));
    end $$`.execute(db)
  await sql`
    create or replace function take_visit_room() returns trigger language plpgsql as $$
    declare
      zone text;
      its_day date;
    begin
      select time_zone into zone from business;
      if not found then
        return null;
      end if;
      if tg_op = 'UPDATE' and old.called_off_at is null then
        update work_day set visit_need = greatest(0, visit_need - round(old.minutes / 60.0, 2))
        where day = (old.starts_at at time zone zone)::date;
      end if;
      if new.called_off_at is null then
        its_day := (new.starts_at at time zone zone)::date;
        insert into work_day (day, room_hours, visit_need)
        values (its_day, usual_room(its_day), round(new.minutes / 60.0, 2))
        on conflict (day) do update set visit_need = work_day.visit_need + excluded.visit_need;
      end if;
      return null;
    end $$`.execute(db)
}
