import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, quotedRequest, standing } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'

const START = '2026-03-02T15:00:00Z'
const TUESDAY = '2026-03-03'
const WEDNESDAY = '2026-03-04'
let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

describe('works', () => {
  test('the price is read, accepted after a look, and the day booked', async () => {
    const { id, path } = await quotedRequest(app)
    const browser = app.browser()
    const price = await browser.get(path).expect(200)
    expect(price.text).toContain('good through Wednesday, April 1, 2026')
    const form = await browser.get(`${path}/accept`).expect(200)
    expect(form.text).toContain('Tuesday, March 3')
    const check = await browser.post(`${path}/check`).type('form').send(acceptForm()).expect(200)
    expect(check.text).toContain('Carol Reyes')
    expect(check.text).toContain('Tuesday, March 3, 2026')
    expect(await standing(app, id)).toMatchObject({ stage: 'quoted', accepted: [], days: [] })
    const done = await browser.post(`${path}/accept`).type('form').send(acceptForm()).expect(303)
    const page = await browser.get(done.headers.location!).expect(200)
    expect(page.text).toContain('Tuesday, March 3, 2026')
    expect(await standing(app, id)).toMatchObject({
      stage: 'booked',
      accepted: [{ revision: 1, typed_name: 'Carol Reyes' }],
      days: [{ day: TUESDAY, hours: '3.00' }],
    })
    const { verbs, mails } = await standing(app, id)
    expect(verbs.slice(-2)).toEqual(['accepted', 'day booked'])
    expect(mails).toEqual(expect.arrayContaining(['day-booked', 'day-booked-staff']))
  })

  test('without a mail address the homeowner is told by text', async () => {
    const { id, path } = await quotedRequest(app, '1', { email: '' })
    await post(app, `${path}/accept`, acceptForm({ day: '2026-03-05' })).expect(303)
    const rows = await app.db
      .selectFrom('outbox')
      .select(['kind', 'way'])
      .where('quote_request_id', '=', id)
      .where('kind', 'in', ['day-booked', 'day-booked-staff'])
      .orderBy('kind')
      .execute()
    expect(rows).toEqual([
      { kind: 'day-booked', way: 'text' },
      { kind: 'day-booked-staff', way: 'mail' },
    ])
  })

  test('accepted without a day, the day is chosen later', async () => {
    const { id, path } = await quotedRequest(app)
    await post(app, `${path}/accept`, acceptForm({ day: 'none' })).expect(303)
    const accepted = await standing(app, id)
    expect(accepted).toMatchObject({ stage: 'quoted', days: [] })
    expect(accepted.mails.filter(kind => kind === 'accepted-staff')).toHaveLength(1)
    const page = await app.browser().get(path).expect(200)
    expect(page.text).toContain('Book this day')
    await post(app, `${path}/day`, { day: WEDNESDAY }).expect(303)
    expect(await standing(app, id)).toMatchObject({
      stage: 'booked',
      days: [{ day: WEDNESDAY, hours: '3.00' }],
    })
  })

  test('in Spanish', async () => {
    const { path } = await quotedRequest(app)
    const page = await app.browser().get(path).set('accept-language', 'es').expect(200)
    expect(page.text).toContain('Aceptar y elegir un día')
    const form = await app.browser().get(`${path}/accept`).set('accept-language', 'es').expect(200)
    expect(form.text).toMatch(/jueves, 5 de marzo/)
  })
})

describe('refused', () => {
  test('a name, a tick and a day are needed, and what was typed stays', async () => {
    const { id, path } = await quotedRequest(app)
    for (const page of ['check', 'accept']) {
      const empty = await post(app, `${path}/${page}`, { revision: '1' }).expect(422)
      for (const field of ['typedName', 'read', 'day']) expect(empty.text).toContain(`href="#${field}"`)
      const half = await post(app, `${path}/${page}`, { revision: '1', typedName: 'Carol "C" Reyes' }).expect(
        422,
      )
      expect(half.text).toContain('value="Carol &quot;C&quot; Reyes"')
      expect(half.text).toMatch(/<title>Error: /)
    }
    expect(await standing(app, id)).toMatchObject({ stage: 'quoted', accepted: [] })
  })

  test('only the newest revision: the page shows the new price and says so', async () => {
    const { id, number, path } = await quotedRequest(app)
    await quoteRequest(app, number, { note: 'With the side bed' })
    for (const page of ['check', 'accept']) {
      const answer = await post(app, `${path}/${page}`, acceptForm()).expect(409)
      expect(answer.text).toContain('We’ve updated the price')
      expect(answer.text).toContain('With the side bed')
    }
    expect(await standing(app, id)).toMatchObject({ accepted: [], days: [] })
    await post(app, `${path}/accept`, acceptForm({ revision: '2', day: 'none' })).expect(303)
    expect((await standing(app, id)).accepted).toEqual([{ revision: 2, typed_name: 'Carol Reyes' }])
  })

  test('on its last day a price is accepted, the day after no more, by the clock of the business', async () => {
    const last = await quotedRequest(app)
    const late = await quotedRequest(app)
    try {
      // Chicago is five hours behind UTC on April 1: a minute before its midnight, then a minute after.
      app.setClock('2026-04-02T04:59:00Z')
      await post(app, `${last.path}/accept`, acceptForm({ day: 'none' })).expect(303)
      app.setClock('2026-04-02T05:01:00Z')
      const page = await app.browser().get(late.path).expect(200)
      expect(page.text).toContain('(512) 555-0100')
      expect(page.text).not.toContain(`${late.path}/accept`)
      const answer = await post(app, `${late.path}/accept`, acceptForm({ day: 'none' })).expect(409)
      expect(answer.text).toContain('This price was good through Wednesday, April 1, 2026')
    } finally {
      app.setClock(START)
    }
    expect((await standing(app, last.id)).accepted).toHaveLength(1)
    expect((await standing(app, late.id)).accepted).toHaveLength(0)
  })

  test('a day that just took the day you chose: the acceptance is kept, and the other days are offered', async () => {
    const first = await quotedRequest(app, '8')
    const second = await quotedRequest(app, '8')
    await post(app, `${first.path}/accept`, acceptForm({ day: '2026-03-09' })).expect(303)
    const early = await post(app, `${second.path}/check`, acceptForm({ day: '2026-03-09' })).expect(422)
    expect(early.text).toContain('just took the day you chose')
    const answer = await post(app, `${second.path}/accept`, acceptForm({ day: '2026-03-09' })).expect(409)
    expect(answer.text).toContain('Your acceptance is saved')
    expect(answer.text).not.toContain('value="2026-03-09"')
    expect(answer.text).toContain('value="2026-03-10"')
    expect(await standing(app, second.id)).toMatchObject({
      stage: 'quoted',
      accepted: [{ revision: 1 }],
      days: [],
    })
  })

  test('whatever is no day or no name can not be sent', async () => {
    const { id, path } = await quotedRequest(app)
    for (const day of ['2026-02-30', '2026-03-32', 'tomorrow', '0000-01-01', '2026-03-03T08:00']) {
      await post(app, `${path}/accept`, acceptForm({ day })).expect(422)
    }
    for (const typedName of ['x'.repeat(201), '\u0007', ' ']) {
      await post(app, `${path}/check`, acceptForm({ typedName })).expect(422)
    }
    await post(app, `${path}/check`, {
      'typedName.0': 'a',
      'day[]': ['b'],
      revision: 'x',
      read: ['yes', 'no'],
    }).expect(422)
    expect((await standing(app, id)).accepted).toHaveLength(0)
  })
})
