import { type Kysely, sql } from 'kysely'

/** Hours of work are hours of one person: labor hours, no longer called those of a crew. */
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of [
    'alter table business rename column crew_hours_a_day to labor_hours_a_day',
    'alter table quote rename column crew_hours to labor_hours',
    'alter table quote rename column crew_hours_worked_out to labor_hours_worked_out',
  ])
    await sql.raw(statement).execute(db)
}
