import { type Kysely, sql } from 'kysely'

/**
 * Visits take room of the half of the day in which they are, too, parted at noon where the business is: `visit_am_need` and
 * `visit_pm_need` are what they need, `visit_am_hours` and `visit_pm_hours` what of that a half has left beside the work
 * booked on it. As of the day: a visit is never refused, and work can't be put where one stands. A function that is left
 * over is replaced: restoring a backup drops only what triggers call.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table work_day
      add column visit_am_need numeric(6,2) not null default 0 check (visit_am_need >= 0),
      add column visit_pm_need numeric(6,2) not null default 0 check (visit_pm_need >= 0),
      add column visit_am_hours numeric(7,3) not null default 0 check (visit_am_hours >= 0),
      add column visit_pm_hours numeric(7,3) not null default 0 check (visit_pm_hours >= 0)`.execute(db)
  await sql`
    create or replace function hours_before_noon(starts_at timestamptz, minutes integer, zone text)
    returns numeric language sql stable as $$
      select round(greatest(0, least(minutes, extract(epoch from
        (((starts_at at time zone zone)::date + time '12:00') at time zone zone) - starts_at) / 60)) / 60, 2)
    $$`.execute(db)
  await fit(db)
  await take(db)
  await sql`
    update work_day set visit_am_need = am, visit_pm_need = whole - am
    from (select (starts_at at time zone time_zone)::date as day, sum(round(minutes / 60.0, 2)) as whole,
        sum(hours_before_noon(starts_at, minutes, time_zone)) as am
      from visit, business where called_off_at is null group by 1) as needed
    where needed.day = work_day.day and work_day.visit_need > 0`.execute(db)
  await sql`
    alter table work_day
      drop constraint work_day_has_room,
      add constraint work_day_has_room
        check (taken_hours >= 0 and visit_hours >= 0 and taken_hours + visit_hours <= room_hours
          and 2 * greatest(am_hours + visit_am_hours, pm_hours + visit_pm_hours) <= room_hours)`.execute(db)
}

async function fit(db: Kysely<any>) {
  await sql`
    create or replace function fit_visits() returns trigger language plpgsql as $$
    begin
      if tg_op = 'UPDATE' and new.taken_hours > old.taken_hours then
        new.visit_hours := old.visit_hours;
      else
        new.visit_hours := greatest(0, least(new.visit_need, new.room_hours - new.taken_hours));
      end if;
      if tg_op = 'UPDATE' and new.am_hours > old.am_hours then
        new.visit_am_hours := old.visit_am_hours;
      else
        new.visit_am_hours := greatest(0, least(new.visit_am_need, new.room_hours / 2 - new.am_hours));
      end if;
      if tg_op = 'UPDATE' and new.pm_hours > old.pm_hours then
        new.visit_pm_hours := old.visit_pm_hours;
      else
        new.visit_pm_hours := greatest(0, least(new.visit_pm_need, new.room_hours / 2 - new.pm_hours));
      end if;
      return new;
    end $$`.execute(db)
}

async function take(db: Kysely<any>) {
  await sql`
    create or replace function take_visit_room() returns trigger language plpgsql as $$
    declare
      zone text;
      its_day date;
      whole numeric;
      am numeric;
    begin
      select time_zone into zone from business;
      if not found then
        return null;
      end if;
      if tg_op = 'UPDATE' and old.called_off_at is null then
        whole := round(old.minutes / 60.0, 2);
        am := hours_before_noon(old.starts_at, old.minutes, zone);
        update work_day set visit_need = greatest(0, visit_need - whole),
          visit_am_need = greatest(0, visit_am_need - am),
          visit_pm_need = greatest(0, visit_pm_need - (whole - am))
        where day = (old.starts_at at time zone zone)::date;
      end if;
      if new.called_off_at is null then
        its_day := (new.starts_at at time zone zone)::date;
        whole := round(new.minutes / 60.0, 2);
        am := hours_before_noon(new.starts_at, new.minutes, zone);
        insert into work_day (day, room_hours, visit_need, visit_am_need, visit_pm_need)
        values (its_day, usual_room(its_day), whole, am, whole - am)
        on conflict (day) do update set visit_need = work_day.visit_need + excluded.visit_need,
          visit_am_need = work_day.visit_am_need + excluded.visit_am_need,
          visit_pm_need = work_day.visit_pm_need + excluded.visit_pm_need;
      end if;
      return null;
    end $$`.execute(db)
}
