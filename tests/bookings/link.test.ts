import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, quotedRequest, standing } from '../helpers/bookings.ts'
import { ALICE, openBusiness, signedIn } from '../helpers/people.ts'

const START = '2026-03-02T15:00:00Z'
let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

test('reading is noted once, when a hand moved, and not of the staff', async () => {
  const { id, path } = await quotedRequest(app)
  const seen = () =>
    app.db
      .selectFrom('quote_seen')
      .innerJoin('quote', 'quote.id', 'quote_id')
      .select('seen_at')
      .where('quote_request_id', '=', id)
      .execute()
  await app.browser().get(path).expect(200)
  const owner = await signedIn(app, ALICE)
  await owner.post(`${path}/seen`).expect(204)
  expect(await seen()).toEqual([])
  await post(app, `${path}/seen`, {}).expect(204)
  await post(app, `${path}/seen`, {}).expect(204)
  expect(await seen()).toEqual([{ seen_at: START }])
  await post(app, `/b/${'A'.repeat(43)}/seen`, {}).expect(404)
})

describe('who may not', () => {
  test('of unknown, ended and revoked tokens only the page itself tells that it was one', async () => {
    const { id, path } = await quotedRequest(app)
    await app.db.updateTable('link').set({ revoked_at: START }).where('quote_request_id', '=', id).execute()
    const ended = await quotedRequest(app)
    await app.db
      .updateTable('link')
      .set({ ends_at: START })
      .where('quote_request_id', '=', ended.id)
      .execute()
    for (const link of [path, ended.path, `/b/${'A'.repeat(43)}`]) {
      const isKnown = link !== `/b/${'A'.repeat(43)}`
      await app
        .browser()
        .get(link)
        .expect(isKnown ? 410 : 404)
      for (const page of ['/accept', '/check', '/day', '/not-this-time'])
        await app
          .browser()
          .get(link + page)
          .expect(404)
      for (const page of ['/check', '/accept', '/day', '/not-this-time']) {
        await post(app, link + page, acceptForm({ reason: 'other' })).expect(404)
      }
    }
  })

  test('the address of a page that only a form can show leads back', async () => {
    const { path } = await quotedRequest(app)
    const check = await app.browser().get(`${path}/check?language=es`).expect(303)
    expect(check.headers.location).toBe(`${path}/accept`)
    const day = await app.browser().get(`${path}/day`).expect(303)
    expect(day.headers.location).toBe(path)
  })

  test('a form on another site', async () => {
    const { id, path } = await quotedRequest(app)
    await app
      .browser()
      .post(`${path}/accept`)
      .set('origin', 'https://elsewhere.example')
      .type('form')
      .send(acceptForm())
      .expect(403)
    expect((await standing(app, id)).accepted).toHaveLength(0)
  })

  test('a mail scanner that reads every page and presses lone buttons', async () => {
    const { id, path } = await quotedRequest(app)
    const before = await standing(app, id)
    for (const page of ['', '/accept', '/not-this-time']) {
      await app
        .browser()
        .get(path + page)
        .expect(200)
      await app
        .browser()
        .head(path + page)
        .expect(200)
    }
    await post(app, `${path}/check`, { revision: '1', typedName: '' }).expect(422)
    await post(app, `${path}/accept`, { revision: '1' }).expect(422)
    await post(app, `${path}/day`, {}).expect(422)
    await post(app, `${path}/not-this-time`, { words: '' }).expect(422)
    expect(await standing(app, id)).toEqual(before)
  })
})

describe('twice', () => {
  test('the same form again, and twenty at once, accept and book once', async () => {
    const { id, path } = await quotedRequest(app)
    const answers = await Promise.all(
      Array.from({ length: 20 }, () => post(app, `${path}/accept`, acceptForm({ day: '2026-03-12' }))),
    )
    expect(answers.map(answer => answer.status)).toEqual(Array(20).fill(303))
    const { accepted, days, verbs, mails } = await standing(app, id)
    expect(accepted).toHaveLength(1)
    expect(days).toHaveLength(1)
    expect(verbs.filter(verb => verb === 'accepted' || verb === 'day booked')).toHaveLength(2)
    expect(mails.filter(kind => kind.startsWith('day-booked'))).toHaveLength(2)
  })

  test('another day once one is booked is refused kindly', async () => {
    const { id, path } = await quotedRequest(app)
    await post(app, `${path}/accept`, acceptForm({ day: '2026-03-12' })).expect(303)
    const answer = await post(app, `${path}/day`, { day: '2026-03-13' }).expect(409)
    expect(answer.text).toContain('To change it, please call us')
    expect((await standing(app, id)).days).toEqual([{ day: '2026-03-12', hours: '3.00' }])
  })
})
