import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { findRainJobs, moveForRain } from '../../src/bookings/rain.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { dayInWords } from '../../src/language/dates-in-words.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted, post } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'

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

// Each test has a week of its own; a day has 8 labor hours, a half of one 4.
let week = Temporal.PlainDate.from('2026-03-02')
beforeEach(() => {
  week = week.add({ weeks: 1 })
})
const day = (ahead: number) => week.add({ days: ahead }).toString()
const STAFF = { kind: 'staff', accountId: 1 } as const

async function copies(hours: string[]) {
  const ids = await copyAccepted(app, pattern, hours)
  for (const id of ids)
    await sql`update quote_request set number = ${`H-${id}`} where id = ${id}`.execute(app.db)
  return ids
}
const booked = async (id: number) => {
  const { rows } = await sql<{ on: string }>`
    select booking_day.day::text || coalesce(' ' || part, '') as on from booking
      join booking_day on booking_id = booking.id
    where quote_request_id = ${id} and called_off_at is null order by 1`.execute(app.db)
  return rows.map(({ on }) => on)
}
async function expectSound() {
  const { rows } = await sql`
    select day from work_day join lateral (select coalesce(sum(hours), 0) as whole,
        coalesce(sum(hours) filter (where part = 'am'), 0) as am,
        coalesce(sum(hours) filter (where part = 'pm'), 0) as pm
      from booking_day where booking_day.day = work_day.day) as shares on true
    where (taken_hours, am_hours, pm_hours) is distinct from (whole, am, pm)
      or whole > room_hours or 2 * greatest(am, pm) > room_hours`.execute(app.db)
  expect(rows).toEqual([])
}

test('a homeowner chooses a morning or an afternoon, and reads it everywhere', async () => {
  const { id, number, path } = await acceptedRequest(app, '3')
  const [other] = await copies(['2'])
  await bookDay(app.deps, other!, `${day(0)} am`)
  const starts = async () =>
    [...(await app.browser().get(`${path}?from=${day(0)}`)).text.matchAll(/name="day" value="([^"]+)"/g)].map(
      ([, start]) => start,
    )
  // Two of the four hours of the morning are taken.
  expect((await starts()).slice(0, 3)).toEqual([`${day(0)} pm`, `${day(1)} am`, `${day(1)} pm`])
  expect((await post(app, `${path}/day`, { day: `${day(0)} am` })).status).toBe(409)
  expect((await post(app, `${path}/day`, { day: `${day(0)} pm` })).status).toBe(303)
  expect((await post(app, `${path}/day`, { day: `${day(0)} pm` })).status).toBe(303)
  expect(await booked(id)).toEqual([`${day(0)} pm`])
  const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
  for (const page of [
    await app.browser().get(path),
    await app.browser().get(own!),
    await owner.get(`/queue/${number}`),
  ])
    expect(page.text).toMatch(new RegExp(`${dayInWords(day(0), 'en')}(, 2026)?, in the afternoon`))
  expect((await owner.get(`/days?from=${day(0)}`)).text).toContain('Afternoon')
  await expectSound()
})

test('work for the day at large and for its halves share the day, and longer work takes it whole', async () => {
  const [whole, morning, afternoon, long] = await copies(['5', '3', '3', '6'])
  await bookDay(app.deps, whole!, day(0))
  await bookDay(app.deps, morning!, `${day(0)} am`)
  await expect(bookDay(app.deps, afternoon!, `${day(0)} pm`)).rejects.toThrow(DayGone)
  await expect(bookDay(app.deps, long!, `${day(1)} am`)).rejects.toThrow(DayGone)
  await bookDay(app.deps, long!, day(1))
  await expectSound()
})

test('of many who want the same morning as many get it as it has room for', async () => {
  const ids = await copies(Array.from({ length: 8 }, () => '1.5'))
  const done = await Promise.allSettled(ids.map(id => bookDay(app.deps, id, `${day(0)} am`)))
  expect(done.filter(({ status }) => status === 'fulfilled')).toHaveLength(2)
  await expectSound()
})

test('work moves to the other half of its day, and another’s is refused', async () => {
  const [one, two] = await copies(['3', '3'])
  await bookDay(app.deps, one!, `${day(0)} am`)
  await bookDay(app.deps, two!, `${day(1)} am`)
  await moveWork(app.deps, one!, { from: `${day(0)} am`, to: `${day(0)} pm` }, STAFF)
  expect(await booked(one!)).toEqual([`${day(0)} pm`])
  const taken = { from: `${day(0)} pm`, to: `${day(1)} am` }
  await expect(moveWork(app.deps, one!, taken, STAFF)).rejects.toThrow(DayGone)
  await expect(moveWork(app.deps, one!, { from: day(0), to: day(2) }, STAFF)).rejects.toMatchObject({
    key: 'moves.other-day',
  })
  await moveWork(app.deps, one!, { from: `${day(0)} pm`, to: day(2) }, STAFF)
  expect(await booked(one!)).toEqual([day(2)])
  await expectSound()
})

test('rain leaves a morning a morning where there is room for it, else it is the day', async () => {
  const ids = await copies(['3', '3'])
  await bookDay(app.deps, ids[0]!, `${day(0)} am`)
  await bookDay(app.deps, ids[1]!, `${day(0)} pm`)
  const [there] = await copies(['2'])
  await bookDay(app.deps, there!, `${day(1)} pm`)
  const jobs = await findRainJobs(app.db, day(0))
  const choices = jobs.map(({ bookingId }) => ({ bookingId, to: day(1) }))
  await moveForRain(app.deps, 1, { key: randomUUID(), day: day(0), choices })
  expect([await booked(ids[0]!), await booked(ids[1]!)]).toEqual([[`${day(1)} am`], [day(1)]])
  await expectSound()
})

test('a change that outgrows its half has the day', async () => {
  const { id, number } = await acceptedRequest(app, '3')
  await bookDay(app.deps, id, `${day(0)} am`)
  const { revision } = await quoteRequest(app, number, { laborHours: '5' })
  await acceptQuote(app.deps, id, { revision, typedName: 'Carol Reyes' })
  expect(await booked(id)).toEqual([day(0)])
  await expectSound()
})

test('a day can’t have less room than its halves need, and says so', async () => {
  const [one] = await copies(['3'])
  await bookDay(app.deps, one!, `${day(0)} am`)
  const set = (hours: string) =>
    owner
      .post(`/days/${day(0)}/room`)
      .type('form')
      .send({ [`room.${day(0)}`]: hours })
  const refused = await set('5')
  expect([refused.status, refused.text.includes('needs 6 labor hours that day')]).toEqual([409, true])
  expect((await set('6')).status).toBe(303)
})

test('turned off, halves are offered and taken no more, and what is booked stays', async () => {
  const [one, two] = await copies(['3', '3'])
  await bookDay(app.deps, one!, `${day(0)} am`)
  await app.db.updateTable('business').set({ half_days: false }).execute()
  await expect(bookDay(app.deps, two!, `${day(0)} pm`)).rejects.toThrow(DayGone)
  expect(await booked(one!)).toEqual([`${day(0)} am`])
  await app.db.updateTable('business').set({ half_days: true }).execute()
})
