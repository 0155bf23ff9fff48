import { sql } from 'kysely'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { keepCrew } from '../../src/days/crew.ts'
import { freeTimes, hoursInHalves } from '../../src/visits/free-times.ts'
import { visitRules } from '../../src/visits/full-days.ts'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { weekdays } from '../helpers/crew.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let pattern: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: pattern } = await acceptedRequest(app))
  await app.db.updateTable('business').set({ half_days: true }).execute()
})
afterAll(() => app.close())
afterEach(async () => {
  await app.db.deleteFrom('crew_member').execute()
  await app.db.updateTable('business').set({ weekday_hours: null, half_days: true }).execute()
})

// Each test has a week of its own, before and after the clocks change; a day has 8 labor hours, a half of one 4.
let week = Temporal.PlainDate.from('2026-03-02')
beforeEach(() => {
  week = week.add({ weeks: 1 })
})
const day = (ahead: number) => week.add({ days: ahead }).toString()
const at = (on: string, time: string) =>
  Temporal.PlainDateTime.from(`${on}T${time}`).toZonedDateTime('America/Chicago').toInstant()
const STAFF = { kind: 'staff', accountId: 1 } as const

async function job(hours: string): Promise<number> {
  const [id] = await copyAccepted(app, pattern, [hours])
  await sql`update quote_request set number = ${`H-${id}`} where id = ${id}`.execute(app.db)
  return id!
}

async function visited(on: string, time: string) {
  const request = await sendRequest(app)
  await setVisit(app.deps, 1, request.id, at(on, time))
  return request
}

const setByForm = (number: string, on: string, time: string, more: Record<string, string> = {}) =>
  owner
    .post(`/queue/${number}/visit`)
    .type('form')
    .send({ 'visit.date': on, 'visit.time': time, ...more })

/** What visits have of the morning and of the afternoon, and what they need of them. */
async function onDay(on: string) {
  const row = await app.db.selectFrom('work_day').selectAll().where('day', '=', on).executeTakeFirstOrThrow()
  const { visit_am_hours, visit_pm_hours, visit_am_need, visit_pm_need } = row
  return [visit_am_hours, visit_pm_hours, visit_am_need, visit_pm_need].map(Number)
}

test('a visit at nine lessens the room of its morning, not that of its afternoon', async () => {
  const visit = await visited(day(0), '09:00')
  const [morning, afternoon] = [await job('3.5'), await job('3.5')]
  await expect(bookDay(app.deps, morning, `${day(0)} am`)).rejects.toThrow(DayGone)
  await bookDay(app.deps, afternoon, `${day(0)} pm`)
  await setVisit(app.deps, 1, visit.id, at(day(1), '15:00'))
  await bookDay(app.deps, morning, `${day(0)} am`)
  expect([await onDay(day(0)), await onDay(day(1))]).toEqual([
    [0, 0, 0, 0],
    [0, 1, 0, 1],
  ])
  const move = { from: `${day(0)} am`, to: `${day(1)} pm` }
  await expect(moveWork(app.deps, morning, move, STAFF)).rejects.toThrow(DayGone)
  await callOffVisit(app.deps, 1, visit.id)
  await moveWork(app.deps, morning, move, STAFF)
})

test('homeowners are not offered the half of which a visit has too much', async () => {
  const { path } = await acceptedRequest(app, '3.5')
  await visited(day(0), '09:00')
  const page = (await app.browser().get(`${path}?from=${day(0)}`)).text
  const starts = [...page.matchAll(/name="day" value="([^"]+)"/g)].map(([, start]) => start)
  expect(starts.slice(0, 3)).toEqual([`${day(0)} pm`, `${day(1)} am`, `${day(1)} pm`])
})

test('one over noon takes of both halves what lies in them', async () => {
  await app.db.updateTable('business').set({ visit_minutes: 90 }).execute()
  await visited(day(0), '11:30')
  await app.db.updateTable('business').set({ visit_minutes: 60 }).execute()
  expect(await onDay(day(0))).toEqual([0.5, 1, 0.5, 1])
})

test.each([
  ['09:00', 60, ['1', '0']],
  ['11:40', 60, ['0.33', '0.67']],
  ['12:00', 60, ['0', '1']],
  // Two in the morning is skipped that day: from one o'clock to noon are ten hours.
  ['01:00', 660, ['10', '1']],
] as const)('from %s on, %i minutes are so many hours of each half', (time, minutes, [am, pm]) => {
  const hours = hoursInHalves(at('2026-03-08', time), minutes, 'America/Chicago')
  expect([hours.am.toFixed(), hours.pm.toFixed()]).toEqual([am, pm])
})

test('of several people one goes: a morning of three has the room of the other two', async () => {
  const eight = { hours: weekdays('8') }
  const crew = ['Ann', 'Ben', 'Cy'].map(name => ({ id: null, name, ...eight }))
  await keepCrew(app.deps, crew, [])
  await visited(day(0), '08:00')
  await visited(day(0), '09:00')
  await bookDay(app.deps, await job('7'), `${day(0)} am`)
  await expect(bookDay(app.deps, await job('4'), `${day(0)} am`)).rejects.toThrow(DayGone)
  await bookDay(app.deps, await job('3'), `${day(0)} am`)
  const { rows } = await sql<{ id: number }>`select id from crew_member`.execute(app.db)
  await expect(
    keepCrew(
      app.deps,
      [],
      rows.map(({ id }) => id),
    ),
  ).rejects.toThrow('days.work-on-days-off')
  expect(await onDay(day(0))).toEqual([2, 0, 2, 0])
})

test('on a full morning the staff are told first; set anyway it pushes no work out, and gets its room when there is some', async () => {
  const work = await job('4')
  await bookDay(app.deps, work, `${day(0)} am`)
  const { number } = await sendRequest(app)
  const told = await setByForm(number, day(0), '09:00')
  expect(told.status).toBe(422)
  expect(told.text).toMatch(/The morning of \w+, \w+ \d+ has no room left for a visit/)
  expect((await setByForm(number, day(0), '09:00', { 'visit.anyway': 'yes' })).status).toBe(303)
  expect(await onDay(day(0))).toEqual([0, 0, 1, 0])
  await callOff(app.deps, work, '')
  expect(await onDay(day(0))).toEqual([1, 0, 1, 0])
  // Its own hour is no hindrance to one that moves within its morning.
  await bookDay(app.deps, await job('3'), `${day(0)} am`)
  expect((await setByForm(number, day(0), '10:00')).status).toBe(303)
  const other = await sendRequest(app)
  expect((await setByForm(other.number, day(0), '11:00')).status).toBe(422)
  expect((await setByForm(other.number, day(0), '13:00')).status).toBe(303)
})

test('times of a full morning are not offered; where no halves are booked they are', async () => {
  await bookDay(app.deps, await job('4'), `${day(0)} am`)
  const offered = async () => {
    const business = await requireBusiness(app.db)
    const from = at(day(0), '00:00')
    const free = freeTimes(await visitRules(app.db, business, from), [], from, { count: 3 })
    return free.map(time => time.toZonedDateTimeISO('America/Chicago').toPlainDateTime().toString())
  }
  expect(await offered()).toEqual(['12:00:00', '14:30:00', '17:00:00'].map(time => `${day(0)}T${time}`))
  await app.db.updateTable('business').set({ half_days: false }).execute()
  expect((await offered())[0]).toBe(`${day(0)}T08:00:00`)
})

test('visits and bookings of halves at once leave a day sound, whoever is first', async () => {
  const jobs = [await job('2.5'), await job('2.5'), await job('1'), await job('2')]
  const visits = [await sendRequest(app), await sendRequest(app), await sendRequest(app)]
  const book = (id: number, part: string) => bookDay(app.deps, id, `${day(0)} ${part}`)
  await Promise.allSettled([
    book(jobs[0]!, 'am'),
    setVisit(app.deps, 1, visits[0]!.id, at(day(0), '09:00')),
    book(jobs[1]!, 'pm'),
    setVisit(app.deps, 1, visits[1]!.id, at(day(0), '11:30')),
    book(jobs[2]!, 'am'),
    setVisit(app.deps, 1, visits[2]!.id, at(day(0), '10:00')),
    setVisit(app.deps, 1, visits[0]!.id, at(day(1), '14:00')),
    book(jobs[3]!, 'pm'),
    setVisit(app.deps, 1, visits[1]!.id, at(day(0), '13:00')),
  ])
  const { rows } = await sql`
    select day from work_day left join lateral (
        select sum(round(minutes / 60.0, 2)) as whole, sum(hours_before_noon(starts_at, minutes, time_zone)) as am
        from visit, business where called_off_at is null and (starts_at at time zone time_zone)::date = work_day.day
      ) as needed on true
    where 2 * greatest(am_hours + visit_am_hours, pm_hours + visit_pm_hours) > room_hours
      or visit_am_hours <> greatest(0, least(visit_am_need, room_hours / 2 - am_hours))
      or visit_pm_hours <> greatest(0, least(visit_pm_need, room_hours / 2 - pm_hours))
      or (visit_need, visit_am_need, visit_pm_need)
        is distinct from (coalesce(whole, 0), coalesce(am, 0), coalesce(whole - am, 0))`.execute(app.db)
  expect(rows).toEqual([])
  const sum = await sql<{ hours: string }>`
    select sum(am_hours + pm_hours) as hours from work_day where day = ${day(0)}`.execute(app.db)
  expect(Number(sum.rows[0]!.hours)).toBeGreaterThan(0)
})
