import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest, standing } from '../helpers/bookings.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

// The clock stands on Monday, March 2, 2026; a work day has room for 8 labor hours.
const TUESDAY = '2026-03-03'
const WEDNESDAY = '2026-03-04'
let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

function book(number: string, day: string) {
  return owner.post(`/queue/${number}/day`).type('form').send({ day })
}

test('after a call the owner books the day for the homeowner, who gets the mail', async () => {
  const { id, number } = await acceptedRequest(app)
  const page = await owner.get(`/queue/${number}`).expect(200)
  expect(page.text).toContain(`<option value="${TUESDAY}">Tuesday, March 3</option>`)
  await book(number, TUESDAY).expect(303)
  const { stage, days, mails } = await standing(app, id)
  expect(stage).toBe('booked')
  expect(days).toEqual([{ day: TUESDAY, hours: '3.00' }])
  expect(mails).toContain('day-booked')
  expect(mails).not.toContain('day-booked-staff')
  const { text } = await owner.get(`/queue/${number}`)
  expect(text).toMatch(/Day booked: Tuesday, March 3[\s\S]*Alice/)
  expect(text).not.toContain('name="day"')
})

test('a day with no room left is refused beside the field, and the others are offered', async () => {
  const first = await acceptedRequest(app, '8')
  await book(first.number, WEDNESDAY).expect(303)
  const { id, number } = await acceptedRequest(app, '8')
  const refused = await book(number, WEDNESDAY).expect(422)
  expect(refused.text).toContain('That day is full now')
  expect(refused.text).not.toContain(`<option value="${WEDNESDAY}"`)
  expect((await standing(app, id)).stage).toBe('quoted')
})

test.each(['', 'soon', '2026-02-30'])('“%s” is no day', async day => {
  const { number } = await acceptedRequest(app)
  const refused = await book(number, day).expect(422)
  expect(refused.text).toContain('Choose a day.')
})

test('the same day again changes nothing; another one is refused', async () => {
  const { id, number } = await acceptedRequest(app, '1')
  for (let times = 0; times < 2; times++) await book(number, '2026-03-05').expect(303)
  await book(number, '2026-03-06').expect(409)
  const { days, verbs } = await standing(app, id)
  expect(days).toEqual([{ day: '2026-03-05', hours: '1.00' }])
  expect(verbs.filter(verb => verb === 'day booked')).toHaveLength(1)
})

test('a quote that nobody accepted is not booked', async () => {
  const { id, number } = await quotedRequest(app)
  expect((await owner.get(`/queue/${number}`)).text).not.toContain('name="day"')
  await book(number, '2026-03-09').expect(409)
  expect((await standing(app, id)).days).toEqual([])
})

test('nobody but the owner may', async () => {
  const { number } = await acceptedRequest(app)
  await expectOwnerOnly(app, await helperBrowser(app), 'post', `/queue/${number}/day`)
})
