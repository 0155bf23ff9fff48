import { afterEach, beforeEach, expect, it } from 'vitest'
import { json } from '../../src/db/json.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
// 81 ft³ is 3 yd³: 300.00 at the middle of 80 and 120.
const beds = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterEach(() => app.close())

async function wordsOf(path: string): Promise<string> {
  const page = await owner.get(path)
  expect(page.status).toBe(200)
  return page.text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
}

async function newVersion(rates: { lower: string; upper: string }) {
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const finishes = body.finishes.map(finish => ({ ...finish, rates: [rates] }))
  const row = {
    version: version + 1,
    body: json({ ...body, finishes }),
    made_at: app.deps.now().toString(),
    made_by: 1,
  }
  await app.db.insertInto('rate_table').values(row).execute()
}

it('tells what would be quoted now, until there is a quote', async () => {
  const { number } = await sendRequest(app, { told: beds })
  const words = await wordsOf(`/queue/${number}/worksheet`)
  expect(words).toContain('as it would be quoted now')
  expect(words).toContain('Area: 27 ft × 12 ft = 324 ft²')
  expect(words).toContain('3 yd³ × $100.00, halfway between $80.00 and $120.00 = $300.00')
})

it('of a quote it tells how that was worked out, whatever the rates are by now', async () => {
  const { number } = await sendRequest(app, { told: beds })
  const adjustment = { by: 'money', value: '-20', reason: 'two jobs in one street' } as const
  await quoteRequest(app, number, { terms: { work: 'upkeep', exempt: '', adjustment } })
  await newVersion({ lower: '200', upper: '200' })
  const words = await wordsOf(`/queue/${number}/worksheet`)
  expect(words).toContain('the math behind quote 1')
  expect(words).toContain('halfway between $80.00 and $120.00 = $300.00')
  expect(words).toContain('Discount (two jobs in one street), as agreed: −$20.00')
  expect(words).toContain('Total: $280.00')
  const now = await wordsOf(`/queue/${number}/worksheet?now=1`)
  expect(now).toContain('3 yd³ × $200.00 = $600.00')
})

it('is for the owner alone, and of a request that there is', async () => {
  const { number } = await sendRequest(app, { told: beds })
  const helper = await helperBrowser(app)
  expect((await helper.get(`/queue/${number}/worksheet`)).status).toBe(403)
  expect((await owner.get('/queue/26-9999/worksheet')).status).toBe(404)
})
