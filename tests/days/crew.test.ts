import { sql } from 'kysely'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { CrewTooSmall, findCrew, findCrewOff, keepCrew, takeOff, takeOffBack } from '../../src/days/crew.ts'
import { freeFirstDays } from '../../src/days/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { weekdays } from '../helpers/crew.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let pattern: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: pattern } = await acceptedRequest(app))
})
afterAll(() => app.close())

// Each test has a week of its own, and begins with Ann for 8 hours and Bo for 6.
let week = Temporal.PlainDate.from('2026-03-02')
beforeEach(async () => {
  week = week.add({ weeks: 1 })
  const crew = [
    { id: null, name: 'Ann', hours: weekdays('8') },
    { id: null, name: 'Bo', hours: weekdays('6') },
  ]
  await keepCrew(app.deps, crew, [])
})
afterEach(async () => {
  await sql`update booking set called_off_at = made_at`.execute(app.db)
  await sql`delete from booking_day`.execute(app.db)
  await keepCrew(
    app.deps,
    [],
    (await findCrew(app.db)).map(({ id }) => id),
  )
})
const day = (ahead: number) => week.add({ days: ahead }).toString()

/** The labor hours that a day has and those that are free, as they are offered. */
async function free(on: string) {
  const [first] = await freeFirstDays(app.db, await requireBusiness(app.db), '0.25', on, 1, app.deps.now())
  return first?.day === on ? Number(first.free) : 0
}
async function book(hours: string, on: string) {
  const [id] = await copyAccepted(app, pattern, [hours])
  await sql`update quote_request set number = ${`K-${id}`} where id = ${id}`.execute(app.db)
  return bookDay(app.deps, id!, on)
}
const ann = async () => (await findCrew(app.db))[0]!

test('a day has the hours of everybody, whether anything is booked on it yet or not', async () => {
  expect(await free(day(0))).toBe(14)
  await book('9', day(0))
  expect(await free(day(0))).toBe(5)
  await expect(book('5.5', day(0))).rejects.toThrow(DayGone)
  await keepCrew(app.deps, [{ id: null, name: 'Cy', hours: weekdays('2') }], [])
  expect([await free(day(0)), await free(day(1))]).toEqual([7, 16])
})

test('somebody’s days off take their hours away, and back they are there', async () => {
  await book('2', day(1))
  const { id } = await ann()
  for (const _press of [1, 2]) await takeOff(app.deps, id, day(0), day(1))
  expect([await free(day(0)), await free(day(1)), await free(day(2))]).toEqual([6, 4, 14])
  const page = (await owner.get(`/days?from=${day(1)}`)).text
  expect([page.includes('Working: Bo 6'), page.includes('Off: Ann')]).toEqual([true, true])
  const off = await findCrewOff(app.db, day(0))
  expect(off).toHaveLength(1)
  for (const _press of [1, 2]) await takeOffBack(app.deps, off[0]!.id)
  expect([await free(day(0)), await free(day(1))]).toEqual([14, 12])
})

test('refused with the days where more is booked, and nothing is changed', async () => {
  await book('7', day(2))
  const { id } = await ann()
  await expect(takeOff(app.deps, id, day(1), day(3))).rejects.toMatchObject({ days: [day(2)] })
  await expect(keepCrew(app.deps, [], [id])).rejects.toThrow(CrewTooSmall)
  expect([await free(day(1)), await free(day(2)), (await findCrew(app.db)).length]).toEqual([14, 7, 2])
  const answer = await owner
    .post('/settings/days/crew/off')
    .type('form')
    .send({ 'away.who': String(id), 'away.from': day(2), 'away.to': '' })
  expect([answer.status, answer.text.includes('More work is booked than would fit on Wed, ')]).toEqual([
    409,
    true,
  ])
})

test('what the owner set for a day, and days off for everybody, stay as they are', async () => {
  const business = await requireBusiness(app.db)
  await setRoom(app.deps, business, day(0), '3')
  await setRoom(app.deps, business, day(1), '0')
  await takeOff(app.deps, (await ann()).id, day(0), day(2))
  expect([await free(day(0)), await free(day(1)), await free(day(2))]).toEqual([3, 0, 6])
})

test('the page keeps names and hours, and refuses what can’t be beside its field', async () => {
  const { text } = await owner.get('/settings/days/crew')
  expect(text).toContain('value="Ann"')
  const [one, two] = await findCrew(app.db)
  const row = (at: number, fields: Record<string, string>) =>
    Object.fromEntries(Object.entries(fields).map(([name, value]) => [`crew.${at}.${name}`, value]))
  const send = (...rows: Record<string, string>[]) =>
    owner
      .post('/settings/days/crew')
      .type('form')
      .send(Object.assign({}, ...rows.map((fields, at) => row(at, fields))))
  const refused = await send({ id: String(one!.id), name: '', h0: '25' })
  expect([refused.status, refused.text.includes('hours from 0 to 24')]).toEqual([422, true])
  const again = await send({ id: '', name: 'Bo', h0: '1' })
  expect([again.status, again.text.includes('somebody of that name already')]).toEqual([409, true])
  const saved = await send(
    { id: String(one!.id), name: 'Ann Reed', h0: '4.5' },
    { id: String(two!.id), name: 'Bo', out: 'yes' },
    { id: '', name: 'Cy', h4: '8' },
    { id: '', name: '', h0: '' },
  )
  expect(saved.status).toBe(303)
  expect((await findCrew(app.db)).map(({ name, hours }) => [name, hours.map(Number)])).toEqual([
    ['Ann Reed', [4.5, 0, 0, 0, 0, 0, 0]],
    ['Cy', [0, 0, 0, 0, 8, 0, 0]],
  ])
  expect([await free(day(0)), await free(day(1)), await free(day(4))]).toEqual([4.5, 0, 8])
})

test('with nobody listed any more, one number a day counts again', async () => {
  await book('9', day(0))
  const ids = (await findCrew(app.db)).map(({ id }) => id)
  await expect(keepCrew(app.deps, [], ids)).rejects.toMatchObject({ days: [day(0)] })
  await sql`delete from booking_day`.execute(app.db)
  await keepCrew(app.deps, [], ids)
  expect([await free(day(0)), await free(day(1))]).toEqual([8, 8])
})
