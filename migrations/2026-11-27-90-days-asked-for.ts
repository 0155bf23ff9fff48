import { type Kysely, sql } from 'kysely'

/**
 * A day may be asked for, if the owner wants it so: a stage of its own, and a booking that holds its days until a moment.
 * Until somebody answers, the request stands under Call, due when the hold ends.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business
      add column day_choice text not null default 'day' check (day_choice in ('day', 'ask'))`.execute(db)
  await sql`alter table booking add column held_until timestamptz`.execute(db)
  await sql`
    create index booking_held on booking (held_until)
    where held_until is not null and called_off_at is null`.execute(db)
  await stage(db)
  await underCall(db)
}

// Only these words are put in, so that it is right beside whatever other stages there are.
async function stage(db: Kysely<any>) {
  const { rows } = await sql<{ made: string }>`
    select pg_get_constraintdef(oid) as made from pg_constraint
    where conname = 'quote_request_stage_check'`.execute(db)
  const made = rows[0]!.made
  const changed = made.replace("'quoted'::text", "'quoted'::text, 'day asked'::text")
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
        when 'day asked' then
          new.step := 'Call';
          new.due_at := (select held_until from booking
            where quote_request_id = new.id and called_off_at is null);$&`,
  )
  if (changed === made) throw new Error('place_in_queue is not as it was.')
  await sql.raw(changed).execute(db)
}
