import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark.ts'
import { readTold } from '../../src/estimate/read-beds.ts'
import { requireRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const BEDS = {
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': '40',
  'beds.0.sizes.width': '15',
  'beds.0.finish': 'shredded-wood',
  'beds.1.shape': 'circle',
  'beds.1.sizes.diameter': 'about 9',
  'beds.1.finish': 'stone',
  'beds.1.count': '2',
  measuredBy: 'paces',
  'extras[]': 'edging',
}

const CAROL = {
  name: ' Carol  Reyes ',
  phone: '+1 (512) 555-0177',
  email: 'carol@example.com',
  street: '12 Fern Lane, Austin',
  postcode: '78702-1234',
  preferredTimes: 'weekdays after 4',
  gate: 'code 12',
  dog: 'Rex, friendly',
  note: 'Two beds\r\nby the porch',
}

const send = (fields: Record<string, string> = {}) =>
  app
    .browser()
    .post('/requests')
    .type('form')
    .send({ ...BEDS, ...CAROL, submissionKey: randomUUID(), ...fields })

const allRequests = () => app.db.selectFrom('quote_request').select('id').execute()

async function findSent(key: string) {
  return app.db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .innerJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .selectAll('customer')
    .selectAll('place')
    .selectAll('ballpark')
    .selectAll('quote_request')
    .where('submission_key', '=', key)
    .executeTakeFirstOrThrow()
}

test('a request is taken in with who, where, the beds and their ballpark, and leads to its own page', async () => {
  const submissionKey = randomUUID()
  const answer = await send({ submissionKey })
  expect(answer.status).toBe(303)
  expect(answer.headers.location).toMatch(/^\/r\/[\w-]{43}$/)
  const sent = await findSent(submissionKey)
  expect(sent).toMatchObject({
    stage: 'new',
    put_in_by: 'homeowner',
    language: 'en',
    name: 'Carol Reyes',
    phone: '+1 (512) 555-0177',
    email: 'carol@example.com',
    street: '12 Fern Lane, Austin',
    postcode: '78702-1234',
    preferred_times: 'weekdays after 4',
    gate: 'code 12',
    dog: 'Rex, friendly',
    note: 'Two beds\nby the porch',
    arrived_at: '2026-03-02T15:00:00Z',
  })
  expect(sent.number).toMatch(/^26-\d{4}$/)
  expect(sent.told.postcode).toBe('78702-1234')
  expect(sent.told.beds[1]).toEqual({
    shape: 'circle',
    sizes: { diameter: 'about 9' },
    count: '2',
    measuredBy: 'paces',
    planted: 'half',
    lying: 'unsure',
    finish: 'stone',
    depth: '',
  })
})

test('a mail to both is put on, and history says that it was sent', async () => {
  const before = app.queued.length
  const { id } = await sendRequest(app)
  const mails = await app.db
    .selectFrom('outbox')
    .select(['kind', 'recipient'])
    .where('quote_request_id', '=', id)
    .orderBy('kind')
    .execute()
  expect(mails).toEqual([
    { kind: 'request-arrived', recipient: 'owner' },
    { kind: 'request-received', recipient: 'homeowner' },
  ])
  expect(app.queued).toHaveLength(before + 2)
})

test('without a mail address only the owner is written to', async () => {
  const { id } = await sendRequest(app, { email: '' })
  const rows = await app.db.selectFrom('outbox').selectAll().where('quote_request_id', '=', id).execute()
  expect(rows.map(row => row.kind)).toEqual(['request-arrived'])
  const history = await app.db.selectFrom('history').selectAll().where('quote_request_id', '=', id).execute()
  expect(history).toMatchObject([{ verb: 'sent', by_kind: 'homeowner', account_id: null }])
})

test('the stored ballpark worked out again from what was told gives the same figures', async () => {
  const submissionKey = randomUUID()
  await send({ submissionKey })
  const sent = await findSent(submissionKey)
  const { body: table } = await requireRateTable(app.db, sent.rate_table_id)
  const reading = readTold(sent.told, table)
  if (!reading.ok) throw new Error('What is stored must be readable.')
  const again = workOutBallpark(reading.job, table)
  expect(again).toEqual(sent.result)
  expect(again.method).toBe(sent.method)
  expect([sent.low, sent.likely, sent.high]).toEqual([again.range.low, again.range.likely, again.range.high])
})

test('numbers count up within a year of the business’s own time', async () => {
  app.setClock('2027-01-01T05:30:00Z')
  const before = await sendRequest(app)
  app.setClock('2027-01-01T06:30:00Z')
  const after = await sendRequest(app)
  const next = await sendRequest(app)
  app.setClock('2026-03-02T15:00:00Z')
  // Chicago is six hours behind in winter.
  expect(before.number).toMatch(/^26-/)
  expect(after.number).toBe('27-0001')
  expect(next.number).toBe('27-0002')
})

test('sent again with the same key it is one request, and leads to the same page', async () => {
  const submissionKey = randomUUID()
  const first = await send({ submissionKey })
  const counts = (await allRequests()).length
  const again = await send({ submissionKey, note: 'pressed twice' })
  expect(again.status).toBe(303)
  expect(again.headers.location).toBe(first.headers.location)
  expect(await allRequests()).toHaveLength(counts)
})

test('sent twenty times at once it is one row and one mail to each', async () => {
  const submissionKey = randomUUID()
  const answers = await Promise.all(Array.from({ length: 20 }, () => sendRequest(app, { submissionKey })))
  expect(new Set(answers.map(answer => answer.ownPath)).size).toBe(1)
  expect(answers.filter(answer => !answer.repeated)).toHaveLength(1)
  const { id, number } = answers[0]!
  const mails = await app.db.selectFrom('outbox').select('kind').where('quote_request_id', '=', id).execute()
  expect(mails).toHaveLength(2)
  const next = await sendRequest(app)
  expect(Number(next.number.slice(3))).toBe(Number(number.slice(3)) + 1)
})

test.each([
  ['name', ' ', 'name'],
  ['street', '', 'street'],
  ['phone', '12', 'phone'],
  ['phone', 'ring me', 'phone'],
  ['email', 'carol at example', 'email'],
  ['postcode', '', 'postcode'],
  ['postcode', '7870', 'postcode'],
  ['note', 'x'.repeat(4001), 'note'],
])('%s %j is refused beside it, and all that was typed stays', async (field, typed, id) => {
  const before = (await allRequests()).length
  const answer = await send({ [field]: typed })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(`href="#${id}"`)
  expect(answer.text).toContain(`id="${id}-error"`)
  expect(answer.text).toContain('value="Rex, friendly"')
  expect(answer.text).toContain('<input type="hidden" name="beds.1.sizes.diameter" value="about 9">')
  expect(await allRequests()).toHaveLength(before)
})

test('a phone or a mail address is enough, but one it must be', async () => {
  expect((await send({ phone: '' })).status).toBe(303)
  expect((await send({ email: '' })).status).toBe(303)
  const answer = await send({ phone: '', email: '', name: '' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="phone-error"')
  expect(answer.text).toContain('id="name-error"')
})

test.each(['512.555.0177', '5125550177', '+52 55 1234 5678', '(512) 555-0177 ext. 4'])(
  'the phone %s is taken',
  async phone => {
    expect((await sendForm({ phone })).status).toBe(303)
  },
)

test.each(['78701', ' 78701 ', '78701-0001', '78701 0001', '787010001'])(
  'the ZIP %s is taken',
  async postcode => {
    expect((await sendForm({ postcode })).status).toBe(303)
  },
)

/** From another address each time, so that the limit of a few a minute is not met. */
let caller = 0
function sendForm(fields: Record<string, string>) {
  caller += 1
  return app.server
    .inject({
      method: 'POST',
      url: '/requests',
      remoteAddress: `203.0.113.${caller}`,
      headers: { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ ...BEDS, ...CAROL, submissionKey: randomUUID(), ...fields }).toString(),
    })
    .then(answer => ({ status: answer.statusCode, text: answer.body }))
}

test('beds that can’t be read lead back to the beds, with all of them', async () => {
  const answer = await sendForm({ 'beds.0.sizes.length': 'long' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="beds-0-sizes-length-error"')
})

/** The range and the ZIP that a page says it shows. */
function shownIn(page: string) {
  const field = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(page)![1]!
  return { shown: field('shown'), shownPostcode: field('shownPostcode') }
}

test('a range other than the one shown is shown before anything is taken in', async () => {
  const before = (await allRequests()).length
  const answer = await sendForm({ shown: '100.00 110.00 120.00', shownPostcode: '78702-1234' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('The range is now another one')
  expect(await allRequests()).toHaveLength(before)
  expect((await sendForm(shownIn(answer.text))).status).toBe(303)
})

test('the first ZIP given brings travel with it; one that is not served is spoken of first', async () => {
  const contact = await app.browser().get(`/request?${new URLSearchParams(BEDS)}`)
  const shown = shownIn(contact.text)
  expect(shown.shownPostcode).toBe('')
  expect((await sendForm({ ...shown, postcode: '78701' })).status).toBe(303)
  const elsewhere = await sendForm({ ...shown, postcode: '10001' })
  expect(elsewhere.status).toBe(422)
  expect(elsewhere.text).toContain('do not usually come to this ZIP')
  expect((await sendForm({ ...shownIn(elsewhere.text), postcode: '10001' })).status).toBe(303)
})

test('a field that people don’t see, filled in, holds it back without losing anything', async () => {
  const before = (await allRequests()).length
  const answer = await sendForm({ keepEmpty: 'http://spam.example' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('value="Rex, friendly"')
  expect(answer.text).not.toContain('spam.example')
  expect(await allRequests()).toHaveLength(before)
})

test('from another site it is refused', async () => {
  const answer = await send().set('origin', 'https://elsewhere.example')
  expect(answer.status).toBe(403)
})

test('more than a few a minute from one address are refused', async () => {
  const statuses = new Set<number>()
  for (let n = 0; n < 31; n++) {
    const answer = await app.server.inject({
      method: 'POST',
      url: '/requests',
      remoteAddress: '203.0.113.250',
      headers: { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' },
      payload: 'name=',
    })
    statuses.add(answer.statusCode)
  }
  expect([...statuses].at(-1)).toBe(429)
})

test('line breaks in a name are made spaces, and NUL is refused', async () => {
  const submissionKey = randomUUID()
  expect((await sendForm({ submissionKey, name: 'Carol\r\nBcc: x\tReyes' })).status).toBe(303)
  expect((await findSent(submissionKey)).name).toBe('Carol Bcc: x Reyes')
  expect((await sendForm({ note: 'a\0b' })).status).toBe(400)
})

test('beds that cost beyond all measure are refused', async () => {
  const vast = { 'beds.0.sizes.length': '100000', 'beds.0.sizes.width': '100000', 'beds.0.count': '99' }
  const before = (await allRequests()).length
  expect((await sendForm(vast)).status).toBe(422)
  expect(await allRequests()).toHaveLength(before)
})

test('a request may also be sent from beds told as numbers', async () => {
  const sent = await sendRequest(app, { told: told(bedTold({ count: 2 })) })
  expect(sent.number).toMatch(/^26-\d{4}$/)
})
