import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { lapseQuotes } from '../../src/bookings/not-this-time.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest, standing } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'

const START = '2026-03-02T15:00:00Z'
let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

function decline(path: string, fields: Record<string, string>) {
  return app.browser().post(`${path}/not-this-time`).type('form').send(fields)
}

describe('not this time', () => {
  test('with a reason and words of their own; the staff get a mail', async () => {
    const { id, path } = await quotedRequest(app)
    await app.browser().get(`${path}/not-this-time`).expect(200)
    await decline(path, { reason: 'later', words: 'In autumn,\nperhaps.' }).expect(303)
    const { stage, verbs, mails } = await standing(app, id)
    expect(stage).toBe('not taken')
    expect(verbs.at(-1)).toBe('not taken')
    expect(mails).toContain('not-taken-staff')
    const { detail } = await app.db
      .selectFrom('history')
      .select('detail')
      .where('quote_request_id', '=', id)
      .where('verb', '=', 'not taken')
      .executeTakeFirstOrThrow()
    expect(detail).toEqual({ reason: 'later', words: 'In autumn,\nperhaps.' })
    const page = await app.browser().get(path).expect(200)
    expect(page.text).toContain('You declined this price')
    expect(page.text).not.toContain(`${path}/accept`)
  })

  test('a price that came since it was read is not declined unseen', async () => {
    const { id, number, path } = await quotedRequest(app)
    const revisionOn = async () => {
      const { text } = await app.browser().get(`${path}/not-this-time`).expect(200)
      return /name="revision" value="(\d+)"/.exec(text)![1]!
    }
    const revision = await revisionOn()
    await quoteRequest(app, number, { laborHours: '1' })
    // What was read is kept while a reason is missing.
    const missing = await decline(path, { revision, words: 'No' }).expect(422)
    expect(missing.text).toContain(`name="revision" value="${revision}"`)
    const refused = await decline(path, { revision, reason: 'price' }).expect(409)
    expect(refused.text).toContain('Please read the new one before you decide.')
    expect((await standing(app, id)).stage).toBe('quoted')
    const form = { revision: await revisionOn(), reason: 'price' }
    for (const _press of [1, 2]) await decline(path, form).expect(303)
    expect((await standing(app, id)).stage).toBe('not taken')
  })

  test('a reason is needed, and few enough words', async () => {
    const { id, path } = await quotedRequest(app)
    await decline(path, { words: 'No' }).expect(422)
    const long = await decline(path, { reason: 'other', words: 'x'.repeat(1001) }).expect(422)
    expect(long.text).toContain('1000 characters at most')
    expect((await standing(app, id)).stage).toBe('quoted')
  })

  test('said twice it is noted once', async () => {
    const { id, path } = await quotedRequest(app)
    for (const reason of ['price', 'myself', 'price']) await decline(path, { reason }).expect(303)
    const { verbs, mails } = await standing(app, id)
    expect(verbs.filter(verb => verb === 'not taken')).toHaveLength(1)
    expect(mails.filter(kind => kind === 'not-taken-staff')).toHaveLength(1)
  })

  test('not after accepting or booking', async () => {
    const accepted = await acceptedRequest(app)
    const booked = await acceptedRequest(app)
    await bookDay(app.deps, booked.id, '2026-03-03')
    for (const { id, path } of [accepted, booked]) {
      const before = await standing(app, id)
      const answer = await decline(path, { reason: 'price' }).expect(409)
      expect(answer.text).toContain('You’ve already accepted this price')
      expect(await standing(app, id)).toEqual(before)
    }
  })
})

describe('quotes lapse', () => {
  test('those whose day is past, by the clock, once; not the accepted, nor where a newer one holds', async () => {
    const past = await quotedRequest(app)
    const accepted = await acceptedRequest(app)
    const renewed = await quotedRequest(app)
    // Quoted on March 2 for 30 days: April 1 is the last, and it ends at 05:00 UTC.
    app.setClock('2026-03-20T15:00:00Z')
    await quoteRequest(app, renewed.number)
    app.setClock('2026-04-02T04:59:00Z')
    expect(await lapseQuotes(app.deps)).toBe(0)
    app.setClock('2026-04-02T05:00:00Z')
    expect(await lapseQuotes(app.deps)).toBeGreaterThan(0)
    expect(await lapseQuotes(app.deps)).toBe(0)
    expect(await standing(app, past.id)).toMatchObject({ stage: 'lapsed' })
    expect((await standing(app, past.id)).verbs.at(-1)).toBe('lapsed')
    expect((await standing(app, accepted.id)).stage).toBe('quoted')
    expect((await standing(app, renewed.id)).stage).toBe('quoted')
    const page = await app.browser().get(past.path).expect(200)
    expect(page.text).toContain('This price was good through Wednesday, April 1, 2026')
    await bookDay(app.deps, accepted.id, '2026-04-03')
    app.setClock(START)
  })
})
