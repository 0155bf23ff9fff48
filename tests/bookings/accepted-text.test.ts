import { createHash } from 'node:crypto'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { changeBesidePrice } from '../../src/business/answers.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, quotedRequest, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const unescaped = (html: string) =>
  html.replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&lt;', '<').replaceAll('&amp;', '&')

test('what was shown is kept, and shown again byte for byte to both, whatever the business says by then', async () => {
  const { id, number, path } = await quotedRequest(app)
  const check = await post(app, `${path}/check`, acceptForm({ day: 'none' })).expect(200)
  const shown = unescaped(/<p class="as-typed">([^<]*)<\/p>/.exec(check.text)![1]!)
  const digest = /name="digest" value="(\w+)"/.exec(check.text)![1]
  expect(digest).toBe(createHash('sha256').update(shown).digest('hex'))
  await post(app, `${path}/accept`, acceptForm({ day: 'none', digest })).expect(303)
  const rain = { en: 'We come another day.', es: '' }
  await changeBesidePrice(app.deps, { answers: { rain } as never, showRates: true })
  try {
    const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
    for (const [browser, page] of [
      [owner, `/queue/${number}/accepted`],
      [app.browser(), `${path}/accepted`],
      [app.browser(), `${own}/accepted`],
    ] as const) {
      expect((await browser.get(page).expect(200)).text).toContain(digest)
      const text = await browser.get(`${page}?revision=1`).expect(200)
      expect(text.headers['content-type']).toBe('text/plain; charset=utf-8')
      expect(text.text).toBe(shown)
      await browser.get(`${page}?revision=2`).expect(404)
    }
  } finally {
    await changeBesidePrice(app.deps, { answers: {} as never, showRates: false })
  }
})

test('what changed between reading and accepting is shown again first', async () => {
  const { id, path } = await quotedRequest(app)
  const answer = await post(app, `${path}/accept`, acceptForm({ digest: '0'.repeat(64) })).expect(409)
  expect(answer.text).toContain('Something here changed while you read')
  expect((await standing(app, id)).accepted).toEqual([])
})

test('nothing to show before anything was accepted', async () => {
  const { number, path } = await quotedRequest(app)
  await app.browser().get(`${path}/accepted`).expect(404)
  await owner.get(`/queue/${number}/accepted`).expect(404)
})

test('the database keeps the text as it was accepted', async () => {
  const { path } = await quotedRequest(app)
  await post(app, `${path}/accept`, acceptForm({ day: 'none' })).expect(303)
  await expect(sql`update accepted_text set text = 'other'`.execute(app.db)).rejects.toThrow()
  await expect(sql`delete from accepted_text`.execute(app.db)).rejects.toThrow()
})
