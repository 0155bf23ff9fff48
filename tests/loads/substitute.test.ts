import { afterAll, beforeAll, expect, test } from 'vitest'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { closeJob } from '../../src/closing/close-job.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post } from '../helpers/bookings.ts'
import { bookedBed, readyToLoad } from '../helpers/loads.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { confirmQuote } from '../helpers/quotes.ts'
import { putInForce } from '../helpers/rate-tables.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
  await readyToLoad(app)
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one =>
      one.slug === 'shredded-wood' ? { ...one, substitutes: ['dyed-wood'] } : one,
    ),
  }))
})
afterAll(() => app.close())

const wordsOf = (html: string) => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
const page = async (path: string, who = owner) => wordsOf((await who.get(path).expect(200)).text)

/** Three yards of shredded hardwood, booked; the yard has no more of it, and the office offers what it can do instead. */
async function soldOutJob(day: string) {
  app.setClock('2026-03-02T15:00:00Z')
  // 36 × 9 ft, 3 in deep, are 81 ft³.
  const job = await bookedBed(app, day, '36', '9')
  await helper
    .post(`/loads/${day}/sold-out`)
    .type('form')
    .send({ of: 'finish', slug: 'shredded-wood' })
    .expect(303)
  const path = `/queue/${job.number}/quote`
  const quote = (await owner.get(path)).text
  expect(quote).toContain('Sold out at the yard: Shredded hardwood mulch. Below, the customer may choose')
  expect(quote).toMatch(/<option value="dyed-wood" selected>/)
  const form = { do: 'confirm', laborHours: '1', note: '' }
  const offer = { ...form, 'picks.0.bed': '', 'picks.0.finish': 'dyed-wood', 'picks.0.depth': '' }
  const sent = await confirmQuote(owner, job.number, offer)
  expect(sent.status).toBe(303)
  return job
}

async function answer(path: string, picks: string): Promise<void> {
  const form = acceptForm({ revision: '2', day: undefined, picks })
  const check = await post(app, `${path}/check`, form).expect(200)
  const digest = /name="digest" value="(\w+)"/.exec(check.text)![1]
  for (const _ of [1, 2]) await post(app, `${path}/accept`, { ...form, digest }).expect(303)
}

test('sold out at the yard: the substitute that the customer picks is loaded, laid and billed', async () => {
  const day = '2026-03-05'
  const { id, number, path } = await soldOutJob(day)
  expect(await page(`/loads/${day}`, helper)).not.toContain('Dyed mulch: ')
  await answer(path, '1-')
  const load = await page(`/loads/${day}`, helper)
  expect(load).toContain('Dyed mulch')
  expect(load).not.toContain('Shredded')
  expect(load).not.toContain('Sold out. Load')
  const sheet = await page(`/days/jobs/${number}/sheet`, helper)
  expect(sheet).toContain('Dyed mulch')
  expect(sheet).not.toContain('Shredded')
  app.setClock(`${day}T20:00:00Z`)
  await closeJob(app.deps, 1, id, 1)
  // Three yards at 100, the middle of 90 and 110.
  await owner
    .post(`/queue/${number}/bill`)
    .type('form')
    .send({ before: '0', total: '300.00', do: 'make' })
    .expect(303)
  const lines = app.db
    .selectFrom('bill_line')
    .innerJoin('bill', 'bill.id', 'bill_id')
    .select(['words', 'amount'])
    .where('quote_request_id', '=', id)
  expect(await lines.execute()).toMatchObject([
    { words: { en: expect.stringContaining('Dyed mulch') }, amount: '300.00' },
  ])
})

test('declined, or asked to keep it as it was, the job stays as agreed and waits for the material', async () => {
  for (const [day, decline] of [
    ['2026-03-10', true],
    ['2026-03-11', false],
  ] as const) {
    const { id, number, path } = await soldOutJob(day)
    if (decline) await declineQuote(app.deps, id, { reason: 'price', words: '' })
    else await answer(path, '0-')
    const load = await page(`/loads/${day}`, helper)
    expect(load).toContain('Shredded hardwood mulch')
    expect(load).toContain('Sold out. Load something else only after the customer says yes')
    expect(await page(`/days/jobs/${number}/sheet`, helper)).toContain('Shredded hardwood mulch')
  }
})
