import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { contentHash } from '../../src/requests/sent-before.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { BEDS, CAROL, sendBy, sendForm } from '../helpers/request-form.ts'
import { bedTold, sending, told } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const MALLORY = { name: 'Mallory', phone: '555 010 0666', email: '', street: '6 Elsewhere', note: '' }
const postBy = (browser: Browser, path: string, fields: Record<string, string>) =>
  browser.post(path).type('form').send(fields)
const countRequests = async () => (await app.db.selectFrom('quote_request').select('id').execute()).length
const keyIn = (page: string) => /name="submissionKey" value="([^"]+)"/.exec(page)?.[1] ?? ''
const addressesIn = (page: string) =>
  [...page.matchAll(/(?:href|action|src)="([^"]*)"/g)].map(([, to]) => to!)

/** Carol's request and its key, which somebody else has seen. */
async function carolSent() {
  const submissionKey = randomUUID()
  const browser = app.browser()
  const answer = await postBy(browser, '/requests', { ...BEDS, ...CAROL, submissionKey })
  expect(answer.status).toBe(303)
  return { submissionKey, browser, own: answer.headers.location! }
}

test('a key stands in the form and in no address, and stays there after a fault', async () => {
  const onwards = await postBy(app.browser(), '/ballpark', { ...BEDS, do: 'go-on' })
  expect(onwards.status).toBe(303)
  expect(onwards.headers.location).toMatch(/^\/request\?beds/)
  expect(onwards.headers.location).not.toMatch(/key|[0-9a-f]{8}-[0-9a-f]{4}/i)
  const page = await app.browser().get(onwards.headers.location!)
  const key = keyIn(page.text)
  expect(key).toMatch(/^[0-9a-f-]{36}$/)
  const faulty = await postBy(app.browser(), '/requests', {
    ...BEDS,
    ...CAROL,
    phone: '12',
    submissionKey: key,
  })
  expect(faulty.status).toBe(422)
  expect(keyIn(faulty.text)).toBe(key)
  for (const { text } of [page, faulty]) {
    expect(addressesIn(text).filter(to => to.startsWith('/request?')).length).toBeGreaterThan(0)
    expect(addressesIn(text).filter(to => to.includes(key) || to.includes('key='))).toEqual([])
  }
  expect(keyIn((await app.browser().get(`/request?${new URLSearchParams(BEDS)}&key=${key}`)).text)).not.toBe(
    key,
  )
})

test('whoever has seen the key of a request gets nothing for it', async () => {
  const { submissionKey, own } = await carolSent()
  const before = await countRequests()
  const alone = await postBy(app.browser(), '/requests', { submissionKey })
  const unknown = await postBy(app.browser(), '/requests', { submissionKey: randomUUID() })
  expect([alone.status, unknown.status]).toEqual([422, 422])
  const withBeds = await postBy(app.browser(), '/requests', { ...BEDS, submissionKey })
  expect(withBeds.status).toBe(422)
  for (const { text, headers } of [alone, withBeds]) {
    expect(text).not.toMatch(/Carol|555-0177|Fern Lane|code 12/)
    expect(JSON.stringify(headers)).not.toContain(own)
  }
  expect(await countRequests()).toBe(before)
})

test('something else under the key of another is a request of its own, each time pressed the same one', async () => {
  const { submissionKey, own } = await carolSent()
  const before = await countRequests()
  const other = await sendForm(app, { ...MALLORY, submissionKey })
  const again = await sendForm(app, { ...MALLORY, submissionKey })
  expect(other.status).toBe(303)
  expect(other.location).toMatch(/^\/r\/[\w-]{43}$/)
  expect(other.location).not.toBe(own)
  expect(again.location).toBe(other.location)
  expect(await countRequests()).toBe(before + 1)
})

test('with any one thing in it another, it is something else; spelled otherwise it is the same', () => {
  const {
    told: beds,
    submissionKey: _,
    language: __,
    ...carol
  } = sending({ gate: 'code 12', note: 'Two\nbeds' })
  const same = contentHash(beds, carol)
  expect(same).toMatch(/^[0-9a-f]{64}$/)
  const hashes = [
    ...Object.entries(carol).map(([field, typed]) => contentHash(beds, { ...carol, [field]: `${typed}x` })),
    contentHash(beds, { ...carol, gate: 'Two\nbeds', note: 'code 12' }),
    contentHash({ ...beds, extras: ['edging'] }, carol),
    contentHash({ ...beds, postcode: '43004' }, carol),
    ...Object.keys(bedTold()).map(field => contentHash(told(bedTold({ [field]: 'x' })), carol)),
    contentHash(told(bedTold(), bedTold()), carol),
    contentHash(told(bedTold({ sizes: { length: '20 ft', width: '5 ftx' } })), carol),
  ]
  expect(new Set([same, ...hashes]).size).toBe(hashes.length + 1)
  const turned = { extras: [], postcode: '', beds: [bedTold({ sizes: { width: '5 ft', length: '20 ft' } })] }
  expect(contentHash(turned, { ...carol, name: ' Carol  Reyes', note: 'Two\r\nbeds ' })).toBe(same)
})

test('neither a forged mark nor the one for something else of one’s own passes for the sender', async () => {
  const { submissionKey, browser, own } = await carolSent()
  const { number } = await app.db
    .selectFrom('quote_request')
    .select('number')
    .where('submission_key', '=', submissionKey)
    .executeTakeFirstOrThrow()
  const mallory = app.browser()
  const first = await postBy(mallory, '/requests', { ...BEDS, ...CAROL, ...MALLORY, submissionKey })
  const mark = /(?:^|,)sent=([^;]+)/.exec(String(first.headers['set-cookie']))![1]!
  const token = mark.split('.')[1]!
  for (const cookie of [`${number}.${token}`, `${number}.`, mark]) {
    const answer = await sendBy(app, { ...MALLORY, note: cookie, submissionKey }).set(
      'cookie',
      `sent=${cookie}`,
    )
    expect(answer.status).toBe(303)
    expect(answer.headers.location).not.toBe(own)
  }
  const elsewhere = await postBy(browser, '/requests', { ...BEDS, ...CAROL, submissionKey: randomUUID() })
  expect(elsewhere.headers.location).not.toBe(own)
})

test('the same content is known again without a cookie, though the page has changed the phone since', async () => {
  const { submissionKey, own } = await carolSent()
  await postBy(app.browser(), `${own}/phone`, { phone: '512 555 0123' })
  const respelled = { name: 'Carol Reyes', note: ' Two beds\nby the porch ', 'beds.0.sizes.length': ' 40' }
  for (const fields of [{}, respelled]) {
    const answer = await sendForm(app, { submissionKey, ...fields })
    expect(answer.location).toBe(own)
  }
})

test('the browser that sent it is shown it again, whatever was typed meanwhile', async () => {
  const { submissionKey, browser, own } = await carolSent()
  const before = await countRequests()
  for (const more of [{ note: 'pressed twice' }, { name: '' }]) {
    const answer = await postBy(browser, '/requests', { ...BEDS, ...CAROL, ...more, submissionKey })
    expect(answer.headers.location).toBe(own)
  }
  expect(await countRequests()).toBe(before)
})

test('the mark of a sender is for this form alone, out of reach of scripts, and lasts an hour', async () => {
  const answer = await sendBy(app)
  const cookies = answer.headers['set-cookie'] as unknown as string[]
  const mark = cookies.find(cookie => cookie.startsWith('sent='))
  for (const part of ['HttpOnly', 'SameSite=Lax', 'Path=/requests', 'Max-Age=3600']) {
    expect(mark).toContain(part)
  }
})

test('twenty posts of one form at once, without cookies, are one request', async () => {
  const before = await countRequests()
  const submissionKey = randomUUID()
  const answers = await Promise.all(Array.from({ length: 20 }, () => sendForm(app, { submissionKey })))
  expect(new Set(answers.map(({ location }) => location)).size).toBe(1)
  expect(await countRequests()).toBe(before + 1)
})
