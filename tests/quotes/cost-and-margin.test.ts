import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { json } from '../../src/db/json.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const finishes = body.finishes.map(finish => ({ ...finish, materialCost: '30' }))
  await app.db
    .insertInto('rate_table')
    .values({
      version: version + 1,
      body: json({
        ...body,
        finishes,
        costs: { ...body.costs, wage: '40' },
        floors: { ...body.floors, margin: '0.5' },
      }),
      made_at: app.deps.now().toString(),
      made_by: 1,
    })
    .execute()
})
afterAll(() => app.close())

describe('cost and margin, once every cost is known', () => {
  // 81 ft³ is 3 yd³: 300.00 at 100; 3.15 yd³ to order at 30 is 94.50, and 3 labor hours at 40 are 120.
  const beds = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))

  async function wordsOf(form?: Record<string, string>) {
    const { number } = await sendRequest(app, { told: beds })
    const path = `/queue/${number}/quote`
    const page = form
      ? await owner
          .post(path)
          .type('form')
          .send({ revision: '1', ...form })
      : await owner.get(path)
    return page.text.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
  }

  it('shows them for the price as worked out', async () => {
    const words = await wordsOf()
    expect(words).toMatch(/Price per labor hour ?\$100\.00/)
    expect(words).toMatch(/Cost what you order, and the labor hours ?\$214\.50/)
    // (300 − 214.50) / 300
    expect(words).toMatch(/Margin ?28\.5 %/)
    expect(words).not.toContain('To see cost, margin, and pay per hour here')
  })

  it('follows the contractor’s own amounts and labor hours', async () => {
    const { number } = await sendRequest(app, { told: beds })
    const first = await owner.get(`/queue/${number}/quote`)
    const [, basis] = /name="basis" value="([^"]+)"/.exec(first.text)!
    const answer = await owner.post(`/queue/${number}/quote`).type('form').send({
      revision: '1',
      basis,
      do: 'again',
      'lines.0.amount': '340',
      'lines.0.reason': 'steep',
      laborHours: '4',
    })
    const words = answer.text.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
    expect(answer.status).toBe(200)
    // 94.50 and 4 × 40; (340 − 254.50) / 340 = 0.25147
    expect(words).toMatch(/Cost what you order, and the labor hours ?\$254\.50/)
    expect(words).toMatch(/Margin ?25\.1 %/)
    expect(words).toMatch(/Price per labor hour ?\$85\.00/)
  })

  it('shows none while the amounts can’t be read', async () => {
    const words = await wordsOf({ do: 'again', 'lines.0.amount': 'much', laborHours: '3' })
    expect(words).toContain('Total')
    expect(words).toContain('not yet')
    expect(words).not.toContain('Margin')
    expect(words).toContain('Fix what’s marked, and the total shows up here.')
    expect(words).not.toContain('What it costs you')
  })

  it('says margin and pay before what there is to mind, which is said once', async () => {
    const { number } = await sendRequest(app, { told: beds })
    const { text } = await owner.get(`/queue/${number}/quote`)
    const words = text.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
    const warning = /class="warning">([^<]*)</.exec(text)![1]!
    expect(words.split(warning)).toHaveLength(2)
    for (const figure of ['Margin', 'Pay per labor hour'])
      expect(words.indexOf(figure)).toBeLessThan(words.indexOf(warning))
  })

  it('is worked out for a script as it is typed, faults and all, and makes no quote', async () => {
    const { id, number } = await sendRequest(app, { told: beds })
    const first = await owner.get(`/queue/${number}/quote`)
    const [, basis] = /name="basis" value="([^"]+)"/.exec(first.text)!
    const follow = (fields: Record<string, string>) =>
      owner
        .post(`/queue/${number}/quote`)
        .set('x-part', 'live')
        .type('form')
        .send({ revision: '1', basis, laborHours: '3', ...fields })
    const changed = await follow({ 'lines.0.amount': '340', 'lines.0.reason': 'steep', do: 'confirm' })
    expect([changed.status, changed.text.match(/data-say="([^"]*)"/)?.[1]]).toEqual([
      200,
      // (340 − 214.50) / 340; (340 − 94.50) / 3
      expect.stringMatching(/^Total: \$340\.00\. Margin: 36\.9%\. Pay per labor hour: \$81\.83\./),
    ])
    const faulty = await follow({ 'lines.0.amount': 'much' })
    expect([faulty.status, faulty.text.includes('data-say')]).toEqual([200, false])
    const quotes = await app.db.selectFrom('quote').select('id').where('quote_request_id', '=', id).execute()
    expect(quotes).toEqual([])
  })
})
