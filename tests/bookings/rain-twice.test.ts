import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { findRainJobs } from '../../src/bookings/rain.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { type Act, isFault } from './acts.ts'
import { elsewhere, here } from './two-processes.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const [ONE, TWO, THREE] = ['2026-03-10', '2026-03-11', '2026-03-12'] as const

test('rain from two processes at once, against moves and bookings: all or none of a day, nothing sold twice, no job moved twice', async () => {
  const { id: pattern } = await acceptedRequest(app)
  const hours = [...Array.from({ length: 4 }, () => '3'), ...Array.from({ length: 6 }, () => '2')]
  const ids = await copyAccepted(app, pattern, hours)
  for (const [index, id] of ids.slice(0, 4).entries())
    await bookDay(app.deps, id, index % 2 === 0 ? ONE : TWO)
  const rain = async (day: string, to: string): Promise<Act> => {
    const choices = (await findRainJobs(app.db, day)).map(({ bookingId }) => ({ bookingId, to }))
    return { verb: 'rain', sent: { key: randomUUID(), day, choices } }
  }
  const booking = (id: number, index: number): Act => ({ verb: 'book', id, day: index % 2 ? TWO : ONE })
  // Each says that it rains on both days: on the first, both to another day than the other process does.
  const mine = [await rain(ONE, TWO), await rain(TWO, THREE), ...ids.slice(4, 7).map(booking)]
  const move: Act = { verb: 'move', id: ids[0]!, from: ONE, to: THREE }
  const theirs = [await rain(ONE, THREE), await rain(TWO, ONE), move, ...ids.slice(7).map(booking)]
  const start = await elsewhere(app, theirs)
  const [one, other] = await Promise.all([here(app, mine), start()])
  const said = [...one, ...other]
  expect(said.filter(isFault)).toEqual([])
  expect(said.filter(why => why === null).length).toBeGreaterThan(0)
  const { rows } = await sql`
    select day from work_day where taken_hours > room_hours
      or taken_hours <> coalesce((select sum(hours) from booking_day where day = work_day.day), 0)`.execute(
    app.db,
  )
  expect(rows).toEqual([])
  // Every job lies whole in one booking, on one day; what rained together went together, but for what moved by itself.
  const lies = await sql<{ id: number; days: string[]; hours: string }>`
    select quote_request_id as id, array_agg(booking_day.day::text) as days, sum(hours)::text as hours
    from booking join booking_day on booking_id = booking.id
    where called_off_at is null and quote_request_id = any(${ids}::bigint[]) group by quote_request_id`.execute(
    app.db,
  )
  for (const { id, days, hours: lying } of lies.rows)
    expect([id, days.length, Number(lying)]).toEqual([id, 1, Number(hours[ids.indexOf(id)])])
  const moves = await sql<{ id: number; moved: number; rained: number }>`
    select quote_request_id as id, count(*) filter (where verb = 'work moved') as moved,
      count(*) filter (where verb = 'moved for rain') as rained
    from history where quote_request_id = any(${ids.slice(0, 4)}::bigint[]) group by quote_request_id order by 1`.execute(
    app.db,
  )
  // All of a day or none of it: as many times for each job that was on it, unless one moved away before.
  const times = moves.rows.map(({ rained }) => Number(rained))
  expect(times[1]).toBe(times[3])
  if (moves.rows.every(({ moved }) => Number(moved) === 0)) expect(times[0]).toBe(times[2])
  const standing = await sql<{ id: number; bookings: number }>`
    select quote_request_id as id, count(*) as bookings from booking
    where quote_request_id = any(${ids.slice(0, 4)}::bigint[]) group by 1 order by 1`.execute(app.db)
  // A booking for each move, none beside.
  const all = moves.rows.map(({ moved, rained }) => 1 + Number(moved) + Number(rained))
  expect(standing.rows.map(({ bookings }) => Number(bookings))).toEqual(all)
})
