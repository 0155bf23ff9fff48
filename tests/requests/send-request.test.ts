import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { requireRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendBy, sendForm } from '../helpers/request-form.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const send = (fields = {}) => sendBy(app, fields)
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

test('without a mail address the homeowner is texted', async () => {
  const { id } = await sendRequest(app, { email: '' })
  const rows = await app.db.selectFrom('outbox').selectAll().where('quote_request_id', '=', id).execute()
  expect(rows.map(row => [row.kind, row.way]).sort()).toEqual([
    ['request-arrived', 'mail'],
    ['request-received', 'text'],
  ])
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
  const again = await send({ submissionKey })
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

test('line breaks in a name are made spaces, and NUL is refused', async () => {
  const submissionKey = randomUUID()
  expect((await sendForm(app, { submissionKey, name: 'Carol\r\nBcc: x\tReyes' })).status).toBe(303)
  expect((await findSent(submissionKey)).name).toBe('Carol Bcc: x Reyes')
  expect((await sendForm(app, { note: 'a\0b' })).status).toBe(400)
})

test('a request may also be sent from beds told as numbers', async () => {
  const sent = await sendRequest(app, { told: told(bedTold({ count: 2 })) })
  expect(sent.number).toMatch(/^26-\d{4}$/)
})
