import { type Kysely, sql } from 'kysely'

/**
 * Visits take room of their day, of one person: `visit_need` is what they need, `visit_hours` what of that the day has left
 * beside the work. A visit is never refused for room, and work can't be put where a visit stands. When work is taken out,
 * visits take what they need first.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table work_day
      add column visit_need numeric(6,2) not null default 0 check (visit_need >= 0),
      add column visit_hours numeric(6,2) not null default 0,
      drop constraint work_day_has_room,
      add constraint work_day_has_room
        check (taken_hours >= 0 and visit_hours >= 0 and taken_hours + visit_hours <= room_hours)`.execute(db)
  await sql`
    create function fit_visits() returns trigger language plpgsql as $$
    begin
      if tg_op = 'UPDATE' and new.taken_hours > old.taken_hours then
        new.visit_hours := old.visit_hours;
      else
        new.visit_hours := greatest(0, least(new.visit_need, new.room_hours - new.taken_hours));
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger fit_visits before insert or update on work_day
    for each row execute function fit_visits()`.execute(db)
  await sql`
    create function take_visit_room() returns trigger language plpgsql as $$
    declare
      rules record;
    begin
      select time_zone, labor_hours_a_day into rules from business;
      if not found then
        return null;
      end if;
      if tg_op = 'UPDATE' and old.called_off_at is null then
        update work_day set visit_need = greatest(0, visit_need - round(old.minutes / 60.0, 2))
        where day = (old.starts_at at time zone rules.time_zone)::date;
      end if;
      if new.called_off_at is null then
        insert into work_day (day, room_hours, visit_need)
        values ((new.starts_at at time zone rules.time_zone)::date, rules.labor_hours_a_day, round(new.minutes / 60.0, 2))
        on conflict (day) do update set visit_need = work_day.visit_need + excluded.visit_need;
      end if;
      return null;
    end $$`.execute(db)
  await sql`
    create trigger take_visit_room after insert or update of starts_at, minutes, called_off_at on visit
    for each row execute function take_visit_room()`.execute(db)
  await sql`
    insert into work_day (day, room_hours, visit_need)
    select (starts_at at time zone time_zone)::date, min(labor_hours_a_day), sum(round(minutes / 60.0, 2))
    from visit, business where called_off_at is null and done_at is null group by 1
    on conflict (day) do update set visit_need = excluded.visit_need`.execute(db)
}
