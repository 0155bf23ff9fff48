import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { replaceKey } from '../../src/key-check.ts'
import { makeFeed } from '../../src/queue/feed.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest } from '../helpers/bookings.ts'
import { readCalendar } from '../helpers/calendars.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

const PAGE = '/days/calendar'

/** Makes a calendar on somebody's own page, and gives the path that the page shows. */
async function make(browser: Browser): Promise<string> {
  expect((await browser.post(PAGE)).headers.location).toBe(PAGE)
  const { text } = await browser.get(PAGE)
  expect(text).toContain('href="webcal://localhost:8080/calendar/')
  return /value="http:\/\/localhost:8080(\/calendar\/[\w-]{43})"/.exec(text)![1]!
}

const read = async (path: string) => readCalendar((await app.browser().get(path)).text)
const statusOf = async (path: string) => (await app.browser().get(path)).status

test('the owner’s has visits and work, a helper’s the work alone, and what is canceled leaves it', async () => {
  const visited = await sendRequest(app, { name: 'Zoë, "🌿" مريم' })
  await setVisit(app.deps, 1, visited.id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  const booked = await acceptedRequest(app, '12')
  await bookDay(app.deps, booked.id, '2026-03-05')
  const [owners, helpers] = [await make(owner), await make(helper)]
  const { method, entries } = await read(owners)
  expect(method).toBe('PUBLISH')
  const days = [
    { start: '2026-03-05', end: '2026-03-06' },
    { start: '2026-03-06', end: '2026-03-07' },
  ]
  const visit = { start: '2026-03-04T20:30:00Z', summary: 'Measure: Zoë, "🌿" مريم, 12 Fern Lane' }
  expect(entries).toMatchObject([...days, visit])
  expect(new Set(entries.map(({ uid }) => uid)).size).toBe(3)
  const theirs = await app.browser().get(helpers)
  expect(theirs.headers).toMatchObject({ 'cache-control': 'no-store', 'x-robots-tag': 'noindex, nofollow' })
  expect(readCalendar(theirs.text).entries).toMatchObject(days)
  expect(theirs.text).not.toMatch(/Measure|\/queue\/|\$/)
  await callOff(app.deps, booked.id, '')
  expect((await read(helpers)).entries).toEqual([])
})

test('a new address ends the one before, and turning it off ends it, twice too', async () => {
  const first = await make(helper)
  const second = await make(helper)
  expect([await statusOf(first), await statusOf(second)]).toEqual([404, 200])
  for (let twice = 0; twice < 2; twice += 1) expect((await helper.post(`${PAGE}/end`)).status).toBe(303)
  expect(await statusOf(second)).toBe(404)
  expect((await helper.get(PAGE)).text).not.toContain('/calendar/')
})

test('the owner turns a helper’s off, and it is over for who has left, and with another key', async () => {
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'helper')
    .executeTakeFirstOrThrow()
  const first = await make(helper)
  const settings = '/settings/messages'
  const end = `${settings}/calendars/${id}/end`
  expect((await owner.get(settings)).text).toContain(`action="${end}"`)
  expect((await owner.post(end)).headers.location).toBe(settings)
  expect(await statusOf(first)).toBe(404)
  const second = await make(helper)
  expect((await owner.post(`/settings/staff/${id}/remove`)).status).toBe(303)
  expect(await statusOf(second)).toBe(404)
  await makeFeed(app.deps, 1)
  await replaceKey(app.db, 'another key for tests, 32 characters or more')
  expect(await app.db.selectFrom('calendar_feed').selectAll().execute()).toEqual([])
  await replaceKey(app.db, app.deps.secretKey)
  helper = await helperBrowser(app)
})
