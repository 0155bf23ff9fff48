import { type Kysely, sql } from 'kysely'

/**
 * Days that are kept for what rain moves, until how many days before a homeowner can move the work, and that a day or a
 * time doesn't suit them: whoever says so is to be called. What moves for rain is sent once by its key.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table work_day add column is_makeup boolean not null default false`.execute(db)
  await sql`
    alter table business add column move_until_days integer not null default 3
      check (move_until_days between 1 and 60)`.execute(db)
  await sql`alter table quote_request add column unsuited_at timestamptz`.execute(db)
  await sql`
    create table rain_move (
      key uuid primary key,
      day date not null,
      made_at timestamptz not null,
      made_by bigint not null references account
    )`.execute(db)
  await underCall(db)
}

// Only these lines are put in, so that it is right beside whatever else is made of the function.
async function underCall(db: Kysely<any>) {
  const { rows } = await sql<{ made: string }>`
    select pg_get_functiondef('place_in_queue'::regproc) as made`.execute(db)
  const made = rows[0]!.made
  const changed = made
    .replace(
      /\n( *)case new\.stage\n/,
      `
      if tg_op = 'UPDATE' and new.stage <> old.stage then
        new.unsuited_at := null;
      end if;$&`,
    )
    .replace(
      /\n *if new\.step is not null and new\.unreached_at is not null then/,
      `
      if new.step is not null and new.unsuited_at is not null then
        new.step := 'Call';
        new.due_at := new.unsuited_at;
      end if;$&`,
    )
  if (changed.split('unsuited_at').length !== 4) throw new Error('place_in_queue is not as it was.')
  await sql.raw(changed).execute(db)
}
