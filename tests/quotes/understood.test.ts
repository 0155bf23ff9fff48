import { afterAll, beforeAll, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import type { Told } from '../../src/estimate/job/bed.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { ballparksAgain } from '../helpers/worked-out-again.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterAll(() => app.close())

// 27 ft × 12 ft × 3 in = 81 ft³ = 3 yd³; 300.00 at the middle of 80 and 120.
const beds = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))

/** What a reader of another time might take for anything at all. */
const ODD = { length: '27 ells', width: '9-10 of 12' }
const oddly = (bed: object = {}): Told => told(bedTold({ sizes: ODD, ...bed }))

const write = (id: number, typed: { told?: Told; measured?: Told }) =>
  app.db
    .updateTable('quote_request')
    .set(Object.fromEntries(Object.entries(typed).map(([name, value]) => [name, json(value)])))
    .where('id', '=', id)
    .execute()

async function wordsOf(path: string, browser = owner): Promise<string> {
  const page = await browser.get(path)
  expect(page.status).toBe(200)
  return page.text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
}

test('what is sent is priced, shown and drawn as it was understood then, whatever its text would mean by now', async () => {
  const { id, number, ownPath } = await sendRequest(app, { told: beds })
  await write(id, { told: oddly() })
  expect(await wordsOf(`/queue/${number}/worksheet`)).toContain('Area: 27 ft × 12 ft = 324 ft²')
  expect(await wordsOf(`/queue/${number}/quote`)).toContain('$300.00')
  expect(await wordsOf(`/queue/${number}`)).toContain('Rectangle, 27 ft × 12 ft')
  expect(await wordsOf(ownPath, app.browser())).toContain('Rectangle, 27 ft × 12 ft')
  const again = (await ballparksAgain(app.db)).filter(({ of }) => of.includes(number))
  expect(again).toHaveLength(1)
  for (const { stored, again: now } of again) expect(now).toEqual(stored)
  const { bookingPath } = await quoteRequest(app, number)
  expect(await wordsOf(bookingPath, app.browser())).toContain('Rectangle, 27 ft × 12 ft')
  const quote = await app.db
    .selectFrom('quote')
    .select(['total', 'job', 'understood'])
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  expect(quote.total).toBe('300.00')
  expect(quote.job.beds[0]!.sizes).toEqual(ODD)
  expect(quote.understood!.beds[0]!.sizes).toEqual({
    length: { value: '27', unit: 'ft' },
    width: { value: '12', unit: 'ft' },
  })
})

/** Sends a request, sets its visit and keeps the sheet as it was posted. */
async function measured(sheet: Record<string, string>, odd = false) {
  const sent = await sendRequest(app, { told: beds })
  if (odd) await write(sent.id, { told: oddly() })
  await setVisit(app.deps, 1, sent.id, app.deps.now())
  const { sizes: _, measuredBy, ...bed } = bedTold({ toldBed: null })
  const fields = Object.entries({ ...bed, told: '0', lyingDepth: '', ...sheet }).map(([name, typed]) => [
    `beds.0.${name}`,
    String(typed),
  ])
  await owner
    .post(`/queue/${sent.number}/measurements`)
    .type('form')
    .send({ measuredBy, do: 'keep', ...Object.fromEntries(fields) })
    .expect(303)
  return sent
}

test('what is measured is priced as it was understood then', async () => {
  const { id, number } = await measured({ 'sizes.length': '54 ft', 'sizes.width': '6 ft' })
  await write(id, { measured: oddly({ toldBed: 0 }) })
  expect(await wordsOf(`/queue/${number}/worksheet`)).toContain('Area: 54 ft × 6 ft = 324 ft²')
  expect(await wordsOf(`/queue/${number}`)).toContain('Rectangle, 54 ft × 6 ft')
})

test('a bed that was kept as told on the sheet is understood as it was told', async () => {
  const { id, number } = await measured({ asTold: 'on' }, true)
  const row = await app.db
    .selectFrom('quote_request')
    .select(['measured', 'measured_understood'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  expect(row.measured!.beds[0]!.sizes).toEqual(ODD)
  expect(row.measured_understood!.beds[0]!.sizes.length).toEqual({ value: '27', unit: 'ft' })
  expect(await wordsOf(`/queue/${number}/worksheet`)).toContain('Area: 27 ft × 12 ft = 324 ft²')
})
