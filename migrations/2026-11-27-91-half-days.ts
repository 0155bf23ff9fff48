import { type Kysely, sql } from 'kysely'

/**
 * Work may be booked on a morning or an afternoon, if the owner wants it so. Each takes at most half of the day's room;
 * what is booked on the day alone goes wherever the day has room.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table business add column half_days boolean not null default false`.execute(db)
  await sql`alter table booking_day add column part text check (part in ('am', 'pm'))`.execute(db)
  await sql`
    alter table work_day
      add column am_hours numeric(6,2) not null default 0 check (am_hours >= 0),
      add column pm_hours numeric(6,2) not null default 0 check (pm_hours >= 0),
      drop constraint work_day_has_room,
      add constraint work_day_has_room
        check (taken_hours >= 0 and visit_hours >= 0 and taken_hours + visit_hours <= room_hours
          and 2 * greatest(am_hours, pm_hours) <= room_hours)`.execute(db)
  await sql`
    create or replace function take_room() returns trigger language plpgsql as $$
    begin
      if tg_op <> 'INSERT' then
        update work_day set taken_hours = taken_hours - old.hours,
          am_hours = am_hours - case when old.part = 'am' then old.hours else 0 end,
          pm_hours = pm_hours - case when old.part = 'pm' then old.hours else 0 end
        where day = old.day;
      end if;
      if tg_op <> 'DELETE' then
        update work_day set taken_hours = taken_hours + new.hours,
          am_hours = am_hours + case when new.part = 'am' then new.hours else 0 end,
          pm_hours = pm_hours + case when new.part = 'pm' then new.hours else 0 end
        where day = new.day;
      end if;
      return null;
    end $$`.execute(db)
}
