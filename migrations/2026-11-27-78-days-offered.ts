import { type Kysely, sql } from 'kysely'

/**
 * How many days ahead of the work a day can be chosen, which public holidays are kept, and what a day is off for. A
 * business that is open already goes on as it did, from the next day on.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business
      add column notice_days integer not null default 1 check (notice_days between 1 and 60),
      add column holidays text[] not null default '{}',
      add column near_first boolean not null default true`.execute(db)
  await sql`alter table business alter column notice_days set default 5`.execute(db)
  await sql`alter table work_day add column off_for text not null default ''`.execute(db)
}
