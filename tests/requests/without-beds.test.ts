import { afterAll, beforeAll, expect, test } from 'vitest'
import { fillUnderstood } from '../../src/fill-understood.ts'
import { writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { findPastRequests } from '../../src/rates/draft/past-requests.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { leaveVisitOut } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { asked, givePhoto, sendUnseen } from '../helpers/photos.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const send = (fields: Record<string, string>) => app.browser().post('/requests').type('form').send(fields)
const newest = () =>
  app.db.selectFrom('quote_request').selectAll().orderBy('id', 'desc').limit(1).executeTakeFirstOrThrow()

/** What the first mail to a homeowner says whose address is confirmed. */
async function receivedMail(id: number): Promise<string> {
  await app.db
    .updateTable('customer')
    .set({ email_confirmed_at: app.deps.now().toString() })
    .where('id', '=', eb => eb.selectFrom('quote_request').select('customer_id').where('id', '=', id))
    .execute()
  const row = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'request-received')
    .executeTakeFirstOrThrow()
  const letter = await writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, row.id))!)
  return letter!.text.replace(/\s+/g, ' ')
}

test('a request is sent without beds, and waits for a call without a range', async () => {
  for (const [way, sent_as] of [
    ['last-year', 'last year'],
    ['look', 'look'],
  ] as const) {
    const answer = await send(asked(way))
    expect([answer.status, answer.headers.location]).toEqual([303, expect.stringMatching(/^\/r\//)])
    const row = await newest()
    expect(row).toMatchObject({
      stage: 'new',
      sent_as,
      put_in_by: 'homeowner',
      told: { beds: [], extras: [], postcode: '' },
      understood: null,
    })
    const ranges = app.db.selectFrom('ballpark').select('id').where('quote_request_id', '=', row.id)
    expect(await ranges.execute()).toEqual([])
    const list = (await owner.get('/queue')).text
    expect(list).toContain(row.number)
  }
})

test('sent twice it is one request', async () => {
  const fields = asked('look', { name: 'Twice' })
  const [one, two] = [await send(fields), await send(fields)]
  expect([one.status, two.status, two.headers.location]).toEqual([303, 303, one.headers.location])
})

test('a fault is said beside its field, and a ZIP outside once, with all that was typed', async () => {
  const wrong = await send(asked('look', { phone: '12', note: 'By the porch' }))
  expect(wrong.status).toBe(422)
  expect(wrong.text).toContain('<a href="#phone">')
  expect(wrong.text).toContain('>By the porch</textarea>')
  expect(wrong.text).toContain('name="as" value="look"')
  const outside = asked('look', { postcode: '99999' })
  const told = await send(outside)
  expect([told.status, told.text.includes('We don’t usually work in this ZIP code.')]).toEqual([422, true])
  expect(told.text).toContain('name="shownPostcode" value="99999"')
  expect((await send({ ...outside, shownPostcode: '99999' })).status).toBe(303)
})

test('whoever asks for the same as last year is told nothing of what is known, and the staff are told that', async () => {
  const known = await sendRequest(app, {
    phone: '+1 512 555 0166',
    street: '7 Holly Road',
    note: 'Secret of last year',
  })
  const unknown = await send(asked('last-year', { phone: '(512) 555-0161', email: '', street: '1 Nowhere' }))
  const again = await send(asked('last-year', { phone: '512 555 0166', email: '', street: '7 Holly Rd' }))
  const page = async (path: string) =>
    (await app.browser().get(path)).text
      .replaceAll(path, '')
      // Its own number and the link to it, to be texted.
      .replace(/href="sms:[^"]*"/g, '')
      .replace(/26-\d{4}/g, '')
      .replace(/\(?512\)?[ -]555[ -]01\d\d|1 Nowhere|7 Holly Rd/g, '')
  const [one, other] = [await page(unknown.headers.location!), await page(again.headers.location!)]
  expect(other).toBe(one)
  expect(other).not.toContain(known.number)
  const { number } = await newest()
  expect((await owner.get(`/queue/${number}`)).text).toContain('The homeowner wants the same as last year')
})

test('beds that the staff add from last year are not told on the page or by mail, as anybody may type an address', async () => {
  const street = '9 Larch Court'
  const phone = '512 555 0177'
  const before = await sendRequest(app, { street, phone })
  await send(asked('last-year', { street, phone }))
  const { id, number } = await newest()
  const other = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', before.id)
    .executeTakeFirstOrThrow()
  const added = await owner
    .post(`/put-in/${number}/same-beds`)
    .type('form')
    .send({ other: String(other.customer_id) })
  expect(added.status).toBe(303)
  expect((await newest()).told.beds).toHaveLength(1)
  const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
  const { text } = await app.browser().get(own)
  expect(text).toContain('We’ll look up last year’s beds')
  expect(text).not.toMatch(/20 ft|range-figure|shredded/i)
  expect(await receivedMail(id)).not.toMatch(/\$/)
})

test('it goes the whole way: a visit, a sheet with a bed to fill in, and a price; the photos come along', async () => {
  const { id, number, ownPath } = await sendUnseen(app)
  const photo = await givePhoto(app, id, 'the porch')
  const page = (await owner.get(`/queue/${number}`)).text
  expect(page).toContain(`src="/queue/${number}/photos/${photo}/small"`)
  expect(page).not.toContain('/visit/leave-out')
  expect((await owner.get(`/queue/${number}/photos/${photo}`)).headers['content-type']).toBe('image/jpeg')
  const skipped = await owner.post(`/queue/${number}/visit/leave-out`).type('form').send({})
  expect([skipped.status, skipped.text.includes('has no beds yet')]).toEqual([409, true])
  await expect(leaveVisitOut(app.deps, 1, id)).rejects.toThrow('requests.no-beds')
  expect((await owner.get(`/queue/${number}/quote`)).status).toBe(409)
  const visit = { 'visit.date': '2026-03-04', 'visit.time': '10:00', 'visit.anyway': 'yes' }
  expect((await owner.post(`/queue/${number}/visit`).type('form').send(visit)).status).toBe(303)
  const sheet = (await owner.get(`/queue/${number}/measure`)).text
  expect(sheet).toContain('name="beds.0.sizes.length"')
  expect(sheet).not.toContain('name="beds.0.told"')
  expect(sheet).toContain(`src="/queue/${number}/photos/${photo}/small"`)
  const measured = {
    measuredBy: 'tape',
    'beds.0.shape': 'rectangle',
    'beds.0.sizes.length': '20',
    'beds.0.sizes.width': '5',
    'beds.0.count': '1',
    'beds.0.planted': 'open',
    'beds.0.lying': 'bare',
    'beds.0.finish': 'shredded-wood',
    'beds.0.depth': '3',
  }
  expect((await owner.post(`/queue/${number}/measurements`).type('form').send(measured)).status).toBe(303)
  const after = (await owner.get(`/queue/${number}`)).text
  expect(after).toContain('20 ft × 5 ft')
  expect(after).not.toContain('Described and measured')
  expect((await owner.get(`/queue/${number}/quote`)).status).toBe(200)
  expect((await app.browser().get(ownPath)).text).toContain('We’ve measured the beds.')
})

test('the mail says that the price comes later, and other work passes such requests over', async () => {
  const { id, number } = await sendUnseen(app)
  expect(await receivedMail(id)).toContain('We’ll price it after we’ve seen the beds.')
  await fillUnderstood(app.db)
  expect((await findPastRequests(app.db, 100)).map(past => past.number)).not.toContain(number)
})
