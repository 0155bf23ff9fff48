import { type Kysely, sql } from 'kysely'

/**
 * How far was driven on a day, by vehicle, with the odometer where somebody read it. Rows are only added; one that was a mistake
 * is undone once.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table miles_driven (
      id bigint generated always as identity primary key,
      key uuid not null,
      day date not null,
      vehicle text not null check (vehicle <> ''),
      odometer_out numeric(9,1) check (odometer_out >= 0),
      odometer_back numeric(9,1),
      distance numeric(7,1) not null check (distance > 0),
      unit text not null check (unit in ('mi', 'km')),
      words text not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      undone_at timestamptz,
      undone_by bigint references account,
      constraint miles_driven_once unique (key),
      constraint miles_driven_by_odometer check ((odometer_out is null) = (odometer_back is null)
        and (odometer_out is null or odometer_back - odometer_out = distance)),
      constraint miles_driven_undone check ((undone_at is null) = (undone_by is null))
    )`.execute(db)
  await sql`create index miles_driven_of_day on miles_driven (day)`.execute(db)
  await sql`
    create function keep_miles_driven() returns trigger language plpgsql as $$
    begin
      if old.undone_at is not null or new.undone_at is null or to_jsonb(old) - 'undone_at' - 'undone_by'
          <> to_jsonb(new) - 'undone_at' - 'undone_by' then
        raise exception 'miles stay as they were noted; they are undone once';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger keep_as_made before update on miles_driven
    for each row execute function keep_miles_driven()`.execute(db)
  await sql`
    create trigger keep before delete on miles_driven for each row execute function refuse_change()`.execute(
    db,
  )
}
