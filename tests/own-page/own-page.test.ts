import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import { hearBy } from '../../src/own-page/stands.ts'
import { requireRateTable } from '../../src/rates/queries.ts'
import type { Sent } from '../../src/requests/quote-request.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let sent: Sent
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
beforeEach(async () => {
  sent = await sendRequest(app, {
    told: told(bedTold(), bedTold({ shape: 'circle', sizes: { diameter: '9' } })),
  })
})
afterAll(() => app.close())

const NOWHERE = `/r/${'x'.repeat(43)}`
const post = (path: string, fields: Record<string, string>) =>
  app.browser().post(path).type('form').send(fields)
const historyOf = async () => {
  const rows = await app.db
    .selectFrom('history')
    .select('verb')
    .where('quote_request_id', '=', sent.id)
    .orderBy('id')
    .execute()
  return rows.map(row => row.verb)
}
const mailsOf = async () => {
  const rows = await app.db
    .selectFrom('outbox')
    .select('kind')
    .where('quote_request_id', '=', sent.id)
    .execute()
  return rows.map(row => row.kind).sort()
}

test('it shows the number, what was sent, the range, where it stands and when one hears', async () => {
  const answer = await app.browser().get(sent.ownPath)
  expect(answer.status).toBe(200)
  // Monday, March 2, and two working days.
  for (const text of [
    sent.number,
    'Rectangle, 20 ft × 5 ft',
    'Circle, 9 ft across',
    'by Wednesday, March 4',
    '12 Fern Lane',
  ]) {
    expect(answer.text).toContain(text)
  }
  expect(answer.text.match(/<svg[^>]*class="drawing/g)?.length).toBeGreaterThanOrEqual(3)
  expect(answer.headers['cache-control']).toBe('no-store')
  expect(answer.headers['x-robots-tag']).toContain('noindex')
})

test('after a refusal its forms and its links still lead to where they did', async () => {
  const wrong: [form: string, fields: Record<string, string>][] = [
    ['phone', { phone: 'none' }],
    ['note', { note: '' }],
  ]
  for (const [form, fields] of wrong) {
    const answer = await post(`${sent.ownPath}/${form}`, fields)
    expect(answer.status).toBe(422)
    for (const place of ['phone', 'note', 'call-off']) {
      expect(answer.text).toContain(`"${sent.ownPath}/${place}"`)
    }
  }
})

test('the range is the one that was stored, whatever the rates are now', async () => {
  const large = await sendRequest(app, {
    told: told(bedTold({ sizes: { length: '60', width: '20' }, measuredBy: 'eye' })),
  })
  const { low, high, rate_table_id } = await app.db
    .selectFrom('ballpark')
    .select(['low', 'high', 'rate_table_id'])
    .where('quote_request_id', '=', large.id)
    .executeTakeFirstOrThrow()
  const { body, version } = await requireRateTable(app.db, rate_table_id)
  await app.db
    .insertInto('rate_table')
    .values(eb => ({
      version: version + 1,
      body: json({ ...body, minimumCharge: '9000' }),
      made_at: '2026-03-02T15:00:00Z',
      made_by: eb.selectFrom('account').select('id').limit(1),
    }))
    .execute()
  const { text } = await app.browser().get(large.ownPath)
  expect(Number(low)).toBeLessThan(Number(high))
  expect(text).toContain(
    `<p class="range-figure">$${Number(low).toLocaleString('en-US')} to $${Number(high).toLocaleString('en-US')}</p>`,
  )
})

test('who was not heard from in time is asked to ring', async () => {
  app.setClock('2026-03-05T15:00:00Z')
  expect((await app.browser().get(sent.ownPath)).text).toContain('You should have heard from us')
  app.setClock('2026-03-02T15:00:00Z')
})

test('looking changes nothing', async () => {
  await app.browser().get(sent.ownPath)
  await app.browser().get(`${sent.ownPath}/call-off`)
  expect(await historyOf()).toEqual(['sent'])
})

test('a revoked link says so on its page alone, and else is answered as an unknown one', async () => {
  await app.db
    .updateTable('link')
    .set({ revoked_at: '2026-03-02T16:00:00Z' })
    .where('quote_request_id', '=', sent.id)
    .execute()
  const strip = (text: string) => text.replaceAll(sent.ownPath, '').replaceAll(NOWHERE, '')
  for (const rest of ['', '/call-off']) {
    const [unknown, revoked] = await Promise.all([
      app.browser().get(NOWHERE + rest),
      app.browser().get(sent.ownPath + rest),
    ])
    expect([unknown.status, revoked.status]).toEqual([404, rest ? 404 : 410])
    if (rest) expect(strip(revoked.text)).toBe(strip(unknown.text))
    else expect(revoked.text).not.toContain('Carol')
  }
  for (const verb of ['phone', 'note', 'call-off']) {
    expect((await post(`${sent.ownPath}/${verb}`, { phone: '5125550100', note: 'x' })).status).toBe(404)
    expect((await post(`${NOWHERE}/${verb}`, {})).status).toBe(404)
  }
  expect(await historyOf()).toEqual(['sent'])
})

test('the phone is changed once, and the owner hears of it', async () => {
  for (let n = 0; n < 2; n++) {
    const answer = await post(`${sent.ownPath}/phone`, { phone: '512 555 0123' })
    expect(answer.status).toBe(303)
    expect(answer.headers.location).toBe(sent.ownPath)
  }
  expect((await app.browser().get(sent.ownPath)).text).toContain('512 555 0123')
  expect(await historyOf()).toEqual(['sent', 'phone changed'])
  expect(await mailsOf()).toEqual(['note-staff', 'request-arrived', 'request-received'])
})

test('a phone that can’t be one is refused and kept', async () => {
  const answer = await post(`${sent.ownPath}/phone`, { phone: 'none' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="phone-error"')
  expect(answer.text).toContain('value="none"')
})

test('the phone may be taken away only where there is a mail address', async () => {
  expect((await post(`${sent.ownPath}/phone`, { phone: '' })).status).toBe(303)
  const phoneOnly = await sendRequest(app, { email: '' })
  expect((await post(`${phoneOnly.ownPath}/phone`, { phone: '' })).status).toBe(422)
})

test('a note is added to the one before; pressed twice it is there once', async () => {
  await post(`${sent.ownPath}/note`, { note: 'The gate sticks.' })
  await post(`${sent.ownPath}/note`, { note: 'After 4, please.' })
  await post(`${sent.ownPath}/note`, { note: 'After 4, please.' })
  const { note } = await app.db
    .selectFrom('quote_request')
    .select('note')
    .where('id', '=', sent.id)
    .executeTakeFirstOrThrow()
  expect(note).toBe('The gate sticks.\n\nAfter 4, please.')
  expect(await historyOf()).toEqual(['sent', 'note added', 'note added'])
})

test('an empty note is refused', async () => {
  const answer = await post(`${sent.ownPath}/note`, { note: '  ' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="note-error"')
})

test('hearing within so many days counts working days, where the business is', () => {
  const business = { time_zone: 'America/Chicago', answer_within_days: 2, working_days: [1, 2, 3, 4, 5] }
  expect(hearBy(business, '2026-03-02T15:00:00Z')).toBe('2026-03-04')
  // Friday evening in Chicago, when it is Saturday in UTC: Monday, Tuesday.
  expect(hearBy(business, '2026-03-07T03:00:00Z')).toBe('2026-03-10')
  expect(hearBy({ ...business, working_days: [6] }, '2026-03-02T15:00:00Z')).toBe('2026-03-14')
})
