import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  const metric = { units: 'metric', currency: 'EUR', 'business.timeZone': 'Europe/Dublin' }
  owner = (await openBusiness(app, metric)).owner
})
afterAll(() => app.close())

describe('a business that works in metric', () => {
  // 10 m × 4 m at 7.5 cm is 3 m³; at 80 to 100 that is 270.00.
  const beds = told(bedTold({ sizes: { length: '10', width: '4 m' }, depth: '7.5' }))

  it('prices and hands over in its own units and currency', async () => {
    const { id, number } = await sendRequest(app, { told: beds })
    const page = await owner.get(`/queue/${number}/quote`).expect(200)
    const words = page.text.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
    expect(words).toContain('3 m³ at €90.00')
    expect(words).toMatch(/Area ?40 ?m²/)
    const fields = { do: 'confirm', laborHours: '3', 'lines.0.amount': '270,00' }
    expect((await confirmQuote(owner, number, fields)).status).toBe(303)
    expect(await findNewestQuote(app.db, id)).toMatchObject({ total: '270.00', currency: 'EUR' })
    const handOver = await owner.get(`/queue/${number}/hand-over`)
    expect(handOver.text).toContain('€270.00')
  })

  it('measures in metres and centimetres', async () => {
    const { id, number } = await sendRequest(app, { told: beds })
    await owner
      .post(`/queue/${number}/visit`)
      .type('form')
      .send({ 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' })
      .expect(303)
    const visit = await app.db
      .selectFrom('visit')
      .select('starts_at')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    expect(visit.starts_at).toBe('2026-03-05T09:00:00Z')
    const sheet = await owner.get(`/queue/${number}/measure`)
    expect(sheet.text).toMatch(/id="beds-0-sizes-length-suffix">m</)
    expect(sheet.text).toMatch(/id="beds-0-lyingDepth-suffix">cm</)
  })
})
