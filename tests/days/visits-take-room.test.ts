import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
})
afterAll(() => app.close())

const STAFF = { kind: 'staff', accountId: 1 } as const
// Ten in the morning in Chicago, before the clocks change.
const at = (day: string, hour = 16) => Temporal.Instant.from(`${day}T${hour}:00:00Z`)

async function visited(day: string, hour?: number) {
  const request = await sendRequest(app)
  await setVisit(app.deps, 1, request.id, at(day, hour))
  return request
}

/** Labor hours of work, of visits as far as there is room, and what visits need. */
async function onDay(day: string) {
  const row = await app.db.selectFrom('work_day').selectAll().where('day', '=', day).executeTakeFirstOrThrow()
  return [row.taken_hours, row.visit_hours, row.visit_need].map(Number)
}

test('work has no room where a visit stands, and has it again when that moves or is called off', async () => {
  const visit = await visited('2026-03-04')
  const job = await acceptedRequest(app, '7.5')
  await expect(bookDay(app.deps, job.id, '2026-03-04')).rejects.toThrow(DayGone)
  await setVisit(app.deps, 1, visit.id, at('2026-03-05'))
  expect([await onDay('2026-03-04'), await onDay('2026-03-05')]).toEqual([
    [0, 0, 0],
    [0, 1, 1],
  ])
  await bookDay(app.deps, job.id, '2026-03-04')
  await expect(moveWork(app.deps, job.id, { from: '2026-03-04', to: '2026-03-05' }, STAFF)).rejects.toThrow(
    DayGone,
  )
  await callOffVisit(app.deps, 1, visit.id)
  await moveWork(app.deps, job.id, { from: '2026-03-04', to: '2026-03-05' }, STAFF)
  expect(await onDay('2026-03-05')).toEqual([7.5, 0, 0])
})

test('on a full day the staff are told first; a visit set anyway pushes no work out, and gets its room when there is some', async () => {
  const job = await acceptedRequest(app, '8')
  await bookDay(app.deps, job.id, '2026-03-06')
  const { id, number } = await sendRequest(app)
  const set = (fields: Record<string, string>) =>
    owner.post(`/queue/${number}/visit`).type('form').send(fields)
  const typed = { 'visit.date': '2026-03-06', 'visit.time': '10:00' }
  const told = await set(typed)
  expect([told.status, told.text.includes('no room left for a visit')]).toEqual([422, true])
  expect((await set({ ...typed, 'visit.anyway': 'yes' })).status).toBe(303)
  expect(await onDay('2026-03-06')).toEqual([8, 0, 1])
  expect((await standing(app, job.id)).days).toEqual([{ day: '2026-03-06', hours: '8.00' }])
  expect((await owner.get('/days?from=2026-03-06')).text).toContain('10:00 AM')
  await callOff(app.deps, job.id, '')
  expect(await onDay('2026-03-06')).toEqual([0, 1, 1])
  await callOff(app.deps, id, '')
  expect(await onDay('2026-03-06')).toEqual([0, 0, 0])
})

test('on a Saturday the staff may set one after another without being told that it is closed', async () => {
  await visited('2026-03-07')
  const { number } = await sendRequest(app)
  const form = { 'visit.date': '2026-03-07', 'visit.time': '14:00' }
  expect((await owner.post(`/queue/${number}/visit`).type('form').send(form)).status).toBe(303)
})

test('the times of a full day are not offered', async () => {
  const job = await acceptedRequest(app, '8')
  await bookDay(app.deps, job.id, '2026-03-10')
  const { number } = await sendRequest(app, { preferredTimes: 'Tuesdays' })
  const page = (await owner.get(`/queue/${number}`)).text
  expect(page).toMatch(/Tue, Mar 3, /)
  expect(page).not.toMatch(/Tue, Mar 10, /)
})

test('visits and bookings at once leave a day sound, whoever is first', async () => {
  const jobs = [await acceptedRequest(app, '4'), await acceptedRequest(app, '4')]
  const visits = [await sendRequest(app), await sendRequest(app)]
  await Promise.allSettled([
    ...jobs.map(({ id }) => bookDay(app.deps, id, '2026-03-12')),
    ...visits.map(({ id }, nth) => setVisit(app.deps, 1, id, at(nth === 0 ? '2026-03-12' : '2026-03-13'))),
    ...visits.map(({ id }, nth) =>
      setVisit(app.deps, 1, id, at(nth === 0 ? '2026-03-13' : '2026-03-12', 18)),
    ),
  ])
  const { rows } = await sql`
    select day from work_day where taken_hours + visit_hours > room_hours
      or visit_hours <> greatest(0, least(visit_need, room_hours - taken_hours))
      or visit_need <> coalesce((select sum(round(minutes / 60.0, 2)) from visit where called_off_at is null
        and (starts_at at time zone 'America/Chicago')::date = work_day.day), 0)`.execute(app.db)
  expect(rows).toEqual([])
})
