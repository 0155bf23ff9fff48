import { type Kysely, sql } from 'kysely'
import type { JobHoursTable } from '../db/schema/jobs.ts'
import type { Database } from '../db/schema.ts'
import type { Period } from './queries.ts'

// Of each job how it went by the version that stands, as findClosing has it.
const standing = sql`
  select distinct on (job_closing.quote_request_id) job_closing.id, last_day, number
  from job_closing join quote_request on quote_request.id = quote_request_id
  where stage <> 'booked' and (case stage when 'part done' then outcome = 'part done' else outcome in ('done', 'stopped') end)
  order by job_closing.quote_request_id, version desc`

/** Dump fees of jobs whose last day worked is within a period. */
export async function findDumpFeesWithin(db: Kysely<Database>, { from, to }: Period) {
  const { rows } = await sql<{
    day: string
    number: string
    amount: string
    words: string
    noted_by: string
  }>`
    with standing as (${standing})
    select last_day as day, number, amount, words, account.name as noted_by
    from job_dump_fee join standing on standing.id = closing_id join account on account.id = typed_by
    where last_day between ${from}::date and ${to}::date order by last_day, number, nth`.execute(db)
  return rows
}

/** How far was driven within a period, with the jobs and visits of each day; nothing that was undone. */
export async function findMilesWithin(db: Kysely<Database>, { from, to }: Period, zone: string) {
  const { rows } = await sql<{
    day: string
    vehicle: string
    odometer_out: string | null
    odometer_back: string | null
    distance: string
    unit: string
    jobs: string
    words: string
    noted_by: string
  }>`
    select day, vehicle, odometer_out, odometer_back, distance, unit, words, account.name as noted_by,
      (select coalesce(string_agg(distinct number, ' ' order by number), '') from quote_request
        where id in (select quote_request_id from booking join booking_day on booking_day.booking_id = booking.id
          where booking_day.day = miles_driven.day and called_off_at is null and held_until is null and say_by is null)
        or id in (select quote_request_id from visit where called_off_at is null
          and (starts_at at time zone ${zone})::date = miles_driven.day)) as jobs
    from miles_driven join account on account.id = made_by
    where undone_at is null and day between ${from}::date and ${to}::date order by day, miles_driven.id`.execute(
    db,
  )
  return rows
}

/** What each person worked by week, which begins on its Monday, and task: of the same jobs. */
export async function findHoursWithin(db: Kysely<Database>, { from, to }: Period) {
  const { rows } = await sql<{
    name: string
    week: string
    task: JobHoursTable['task']
    hours: string
  }>`
    with standing as (${standing})
    select name, date_trunc('week', last_day)::date as week, task, round(sum(minutes) / 60.0, 2) as hours
    from job_hours join standing on standing.id = closing_id
    where last_day between ${from}::date and ${to}::date
    group by name, week, task order by name, week, task`.execute(db)
  return rows
}
