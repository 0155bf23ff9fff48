import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { findRainJobs, moveForRain } from '../../src/bookings/rain.ts'
import { Conflict } from '../../src/http/errors.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const [ONE, TWO] = ['2026-03-10', '2026-03-11'] as const
const STAFF = { kind: 'staff', accountId: 1 } as const

// On PostgreSQL each has a connection of its own, as two processes have.
test('two days that rain onto each other at once, against moves and bookings: nothing is sold twice, none waits for ever', async () => {
  const { id: pattern } = await acceptedRequest(app)
  const hours = [...Array.from({ length: 4 }, () => '3'), ...Array.from({ length: 6 }, () => '2')]
  const ids = await copyAccepted(app, pattern, hours)
  for (const [index, id] of ids.slice(0, 4).entries())
    await bookDay(app.deps, id, index % 2 === 0 ? ONE : TWO)
  const sent = async (day: string, to: string) => {
    const choices = (await findRainJobs(app.db, day)).map(({ bookingId }) => ({ bookingId, to }))
    return { key: randomUUID(), day, choices }
  }
  const [first, second] = [await sent(ONE, TWO), await sent(TWO, '2026-03-12')]
  const done = await Promise.allSettled([
    moveForRain(app.deps, 1, first),
    moveForRain(app.deps, 1, second),
    moveWork(app.deps, ids[0]!, { from: ONE, to: '2026-03-12' }, STAFF),
    ...ids.slice(4).map((id, index) => bookDay(app.deps, id, index % 2 === 0 ? ONE : TWO)),
  ])
  const faults = done.flatMap(one => (one.status === 'rejected' ? [one.reason] : []))
  expect(faults.filter(fault => !(fault instanceof Conflict))).toEqual([])
  expect(faults.length).toBeLessThan(done.length)
  const { rows } = await sql`
    select day from work_day where taken_hours > room_hours
      or taken_hours <> coalesce((select sum(hours) from booking_day where day = work_day.day), 0)`.execute(
    app.db,
  )
  expect(rows).toEqual([])
})
