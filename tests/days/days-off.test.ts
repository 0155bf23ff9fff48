import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { closeHolidaysAhead } from '../../src/days/days-off.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
})
afterAll(() => app.close())

const keep = (...keys: string[]) =>
  owner.post('/settings/days/holidays').type('form').send({ 'holidays[]': keys })
const off = (from: string, to = '', why = '') =>
  owner.post('/settings/days/off').type('form').send({ 'off.from': from, 'off.to': to, 'off.why': why })

async function room(day: string) {
  const row = await app.db.selectFrom('work_day').selectAll().where('day', '=', day).executeTakeFirst()
  return row && [Number(row.room_hours), row.off_for]
}

test('holidays that are kept are off for as far as anybody can book, and worked again when they aren’t', async () => {
  expect((await owner.get('/settings/days')).text).toContain('Memorial Day, Mon, May 25')
  expect((await keep('memorial', 'juneteenth', 'independence')).status).toBe(303)
  expect(await room('2026-05-25')).toEqual([0, 'Memorial Day'])
  // Saturday, July 4, is no working day anyway: the Friday before is off, as its row said.
  expect((await owner.get('/settings/days')).text).toContain('Independence Day, Sat, Jul 4; off Fri, Jul 3')
  expect([await room('2026-07-03'), await room('2026-07-04')]).toEqual([[0, 'Independence Day'], undefined])
  const { id } = await acceptedRequest(app)
  await expect(bookDay(app.deps, id, '2026-06-19')).rejects.toThrow(DayGone)
  expect((await owner.get('/days?from=2026-05-25')).text).toContain('Closed: Memorial Day')

  // The owner works on one of them after all, which the nightly work leaves alone.
  await setRoom(app.deps, await requireBusiness(app.db), '2026-06-19', '4')
  await app.db.deleteFrom('work_day').where('day', '=', '2026-05-25').execute()
  await closeHolidaysAhead(app.deps)
  expect([await room('2026-05-25'), await room('2026-06-19')]).toEqual([
    [0, 'Memorial Day'],
    [4, ''],
  ])
  await keep()
  expect(await Promise.all(['2026-05-25', '2026-06-19', '2026-07-03'].map(room))).toEqual([
    [8, ''],
    [4, ''],
    [8, ''],
  ])
})

test('days off are taken together or not at all: where work is booked it is said first', async () => {
  const { id } = await acceptedRequest(app)
  await bookDay(app.deps, id, '2026-08-12')
  const refused = await off('2026-08-10', '2026-08-14', 'Vacation')
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('Work or a visit is set for Wed, Aug 12.')
  expect(refused.text).toContain('value="Vacation"')
  expect(await room('2026-08-10')).toBeUndefined()
  expect((await off('2026-08-13', '2026-08-17', 'Vacation')).status).toBe(303)
  expect(await Promise.all(['2026-08-13', '2026-08-14', '2026-08-15', '2026-08-17'].map(room))).toEqual([
    [0, 'Vacation'],
    [0, 'Vacation'],
    undefined,
    [0, 'Vacation'],
  ])
})

test.each([
  ['', '', 'Give the first day off'],
  ['2026-03-01', '', 'from today on'],
  ['2026-09-04', '2026-09-03', 'before the first'],
  ['2026-09-04', '2026-12-24', '60 days at most'],
])('days off from “%s” to “%s” are refused', async (from, to, why) => {
  const answer = await off(from, to)
  expect([answer.status, answer.text.includes(why)]).toEqual([422, true])
})
