import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { requireBusiness } from '../../src/business/queries.ts'
import { haveRoom, roomsOf, shareOut } from '../../src/days/room.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import type { Act, Said } from './acts.ts'
import { elsewhere, here } from './two-processes.ts'

/** How many compete; a long run sets COMPETING=1000. */
const COMPETING = Number(process.env.COMPETING ?? 200)
const CONNECTIONS = 10
const DAYS = ['2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06', '2026-03-09']
// A day has 8 labor hours: jobs that fill it, that leave a rest, and that take two or three days.
const HOURS = ['1', '3', '8', '2.5', '11', '0.25', '5', '20']

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

/** Has the bookings done in two processes at once, each over as many connections as it holds open: every second one here. */
async function compete(acts: Act[]): Promise<Said[]> {
  const of = (half: number) => acts.filter((_, nth) => nth % 2 === half)
  const start = await elsewhere(app, of(1), CONNECTIONS)
  const [mine, theirs] = await Promise.all([here(app, of(0), CONNECTIONS), start()])
  return acts.map((_, nth) => (nth % 2 === 0 ? mine : theirs)[Math.floor(nth / 2)]!)
}

test(`${COMPETING} bookings compete for the last room of a few days: it is never exceeded`, {
  timeout: 600_000,
}, async () => {
  const { id } = await acceptedRequest(app)
  const hours = Array.from({ length: COMPETING }, (_, job) => HOURS[job % HOURS.length]!)
  const jobs = await copyAccepted(app, id, hours)
  const days = jobs.map((_, job) => DAYS[(job * 7) % DAYS.length]!)
  const said = await compete(jobs.map((id, job) => ({ verb: 'book', id, day: days[job]! })))
  const refused = said.filter(why => why === 'no room')
  expect(said.filter(why => why !== null && why !== 'no room')).toEqual([])

  const { rows } = await sql<{ day: string; booked: string; taken_hours: string; room_hours: string }>`
      select day, taken_hours, room_hours, coalesce((select sum(hours) from booking_day where day = work_day.day), 0) as booked
      from work_day order by day`.execute(app.db)
  for (const { day, booked, taken_hours, room_hours } of rows) {
    expect({ day, taken: Number(taken_hours) }).toEqual({ day, taken: Number(booked) })
    expect(Number(booked), day).toBeLessThanOrEqual(Number(room_hours))
  }
  // Room only ever went away, so whoever was refused must find none now either.
  const business = await requireBusiness(app.db)
  const roomOn = roomsOf(business, rows)
  const fitsStill = (job: number) => {
    const shares = shareOut(hours[job]!, days[job]!, business.labor_hours_a_day, roomOn)
    return shares !== undefined && haveRoom(shares, roomOn)
  }
  expect(jobs.filter((_, job) => said[job] === 'no room' && fitsStill(job))).toEqual([])
  expect(refused.length).toBeGreaterThan(0)

  const { count } = await app.db
    .selectFrom('booking')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .select(eb => eb.fn.countAll<number>().as('count'))
    .where('quote_request.stage', '=', 'booked')
    .executeTakeFirstOrThrow()
  expect(count).toBe(COMPETING - refused.length)
})
