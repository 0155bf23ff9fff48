import { type Kysely, sql } from 'kysely'

/**
 * A week may be chosen, if the owner wants it so: a stage of its own, and a booking that has its room in that week,
 * penciled in on days of it, until one is said. Until then the request stands under Call, due when that was promised.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business
      drop constraint business_day_choice_check,
      add constraint business_day_choice_check check (day_choice in ('day', 'week', 'ask')),
      add column say_day_before integer not null default 3 check (say_day_before between 1 and 30)`.execute(
    db,
  )
  await sql`
    alter table booking add column say_by date,
      add constraint booking_week check (say_by is null or (held_until is null and say_by < first_day))`.execute(
    db,
  )
  await sql`create index booking_week on booking (say_by) where say_by is not null and called_off_at is null`.execute(
    db,
  )
  await stage(db)
  await underCall(db)
}

// Only these words are put in, so that it is right beside whatever other stages there are.
async function stage(db: Kysely<any>) {
  const { rows } = await sql<{ made: string }>`
    select pg_get_constraintdef(oid) as made from pg_constraint
    where conname = 'quote_request_stage_check'`.execute(db)
  const made = rows[0]!.made
  const changed = made.replace("'day asked'::text", "'day asked'::text, 'week chosen'::text")
  if (changed === made) throw new Error('quote_request_stage_check is not as it was.')
  await sql`alter table quote_request drop constraint quote_request_stage_check`.execute(db)
  await sql.raw(`alter table quote_request add constraint quote_request_stage_check ${changed}`).execute(db)
}

async function underCall(db: Kysely<any>) {
  const { rows } = await sql<{ made: string }>`
    select pg_get_functiondef('place_in_queue'::regproc) as made`.execute(db)
  const made = rows[0]!.made
  const changed = made.replace(
    /\n *when 'booked'/,
    `
        when 'week chosen' then
          new.step := 'Call';
          new.due_at := (select (say_by + 1)::timestamp at time zone time_zone from booking, business
            where quote_request_id = new.id and called_off_at is null);$&`,
  )
  if (changed === made) throw new Error('place_in_queue is not as it was.')
  await sql.raw(changed).execute(db)
}
