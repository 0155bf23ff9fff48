import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import type { Load } from '../../src/deps.ts'
import { offeredShapes, sizeFields } from '../../src/estimate/shapes/all-shapes.ts'
import { Budget } from '../../src/limits/budget.ts'
import { Threads } from '../../src/limits/threads.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { manyBeds, manyBedsTyped } from '../helpers/many-beds.ts'
import { openBusiness } from '../helpers/people.ts'
import { BEDS, CAROL, sendBy } from '../helpers/request-form.ts'
import { sendRequest, told } from '../helpers/requests.ts'

const NOW = '2026-03-02T15:00:00Z'

let app: TestApp
let usual: Load
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  usual = { ...app.deps.load }
})
afterAll(() => app.close())

beforeEach(() => {
  app.setClock(NOW)
  const limits = { most: 200, perSecond: 10 }
  app.deps.load.budget = new Budget(app.deps.now, {
    network: limits,
    site: limits,
    all: limits,
    mostNetworks: 10,
  })
})
afterEach(() => Object.assign(app.deps.load, usual))

/** Leaves nothing of it; it is full again 20 seconds later. */
const spend = () => {
  while (app.deps.load.budget.take(1, '127.0.0.1') === 0);
}
const comeBack = () => app.setClock('2026-03-02T15:00:20Z')

/** How many units another program is charged for what it sends. */
async function charged(body: object) {
  app.deps.load.budget = new Budget(app.deps.now, {
    network: { most: 200, perSecond: 1 },
    site: { most: 1000, perSecond: 1 },
    all: { most: 1000, perSecond: 1 },
    mostNetworks: 10,
  })
  expect((await app.browser().post('/ballpark').send(body)).status).toBe(200)
  // As long as it takes until all is there again, so much was taken.
  return app.deps.load.budget.take(200, '127.0.0.1')
}

/** Each size that the form asks for, of so many beds. */
function namedSizes(beds: number): Record<string, string> {
  const names = sizeFields(offeredShapes()).map(({ name }) => name)
  const fields = Array.from({ length: beds }, (_, at) =>
    names.map(name => [`beds.${at}.sizes.${name}`, `about 12' 6"`]),
  )
  return Object.fromEntries(fields.flat())
}

const postJson = (beds: object[]) =>
  app
    .browser()
    .post('/ballpark')
    .send(told(...(beds as [])))
const postForm = (fields: object) => app.browser().post('/ballpark').type('form').send(fields)
const postLive = (fields: object) => postForm(fields).set({ accept: 'text/html', 'x-part': 'live' })

/** What a page posts again when its button is pressed. */
function fieldsOf(page: string): [action: string, fields: string] {
  const fields = [...page.matchAll(/<input type="hidden" name="([^"]*)" value="([^"]*)">/g)]
  const plain = (text = '') =>
    text.replaceAll('&#39;', "'").replaceAll('&quot;', '"').replaceAll('&amp;', '&')
  const query = new URLSearchParams(fields.map(([, name, value]) => [plain(name), plain(value)]))
  return [/<form method="post" action="([^"]*)"/.exec(page)![1]!, query.toString()]
}

test('other programs hear 429 when it is spent, and in how many seconds to ask again; then they are answered', async () => {
  spend()
  const refused = await postJson(manyBeds(3))
  expect(refused.status).toBe(429)
  const seconds = Number(refused.headers['retry-after'])
  expect(seconds).toBeGreaterThan(0)
  expect(refused.body.errors).toEqual([{ field: '', message: expect.stringContaining(`${seconds} second`) }])
  app.setClock(Temporal.Instant.from(NOW).add({ seconds }).toString())
  expect((await postJson(manyBeds(3))).status).toBe(200)
})

test('a form that was sent meanwhile is kept, and is what the button sends again', async () => {
  spend()
  const refused = await postForm({ ...BEDS, do: 'go-on' })
  expect(refused.status).toBe(429)
  expect(refused.headers['retry-after']).toMatch(/^\d+$/)
  const [action, fields] = fieldsOf(refused.text)
  expect(action).toBe('/ballpark')
  // The other language would be another address, without what was typed.
  expect(refused.text).not.toContain('hreflang')
  comeBack()
  const sent = await app.browser().post(action).type('form').send(fields)
  expect(sent.status).toBe(303)
  expect(sent.headers.location).toMatch(/^\/request\?.*beds\.1\.sizes\.diameter=about\+9/)
})

test('who sends beds in then loses nothing of who and where either', async () => {
  spend()
  const refused = await sendBy(app)
  expect(refused.status).toBe(429)
  const [action, fields] = fieldsOf(refused.text)
  expect(new URLSearchParams(fields).get('street')).toBe(CAROL.street)
  comeBack()
  const sent = await app.browser().post(action).type('form').send(fields)
  expect([sent.status, sent.headers.location]).toEqual([303, expect.stringMatching(/^\/r\//)])
})

test('a range that was shown is still held against the one that is taken in', async () => {
  spend()
  const refused = await sendBy(app, { shown: '1.00 2.00 3.00', shownPostcode: '' })
  const [action, fields] = fieldsOf(refused.text)
  comeBack()
  const sent = await app.browser().post(action).type('form').send(fields)
  expect(sent.status).toBe(422)
  expect(sent.text).toContain('Your price range changed')
})

test('more fields than any form of ours has are not carried along', async () => {
  spend()
  const carried = async (body: string) => {
    const answer = await app.browser().post('/ballpark').type('form').set('accept', 'text/html').send(body)
    expect(answer.status).toBe(429)
    return answer.text.includes('<form method="post" action="/ballpark">')
  }
  expect(await carried('extras[]=1&'.repeat(1500))).toBe(true)
  expect(await carried('extras[]=1&'.repeat(1501))).toBe(false)
  expect(await carried(Array.from({ length: 1501 }, (_, at) => `${at}=`).join('&'))).toBe(false)
})

test('more bytes than a form of ours or forty beds have are refused, and fewer are paid for', async () => {
  const long = { note: 'n'.repeat(64 * 1024) }
  expect((await postForm(long)).status).toBe(413)
  expect((await app.browser().post('/ballpark').send(long)).status).toBe(413)
  expect((await sendBy(app, long)).status).toBe(413)
  const full = { ...namedSizes(40), ...manyBedsTyped(40) }
  expect((await postForm(full)).status).toBe(200)
  const few = await charged({ beds: manyBeds(3) })
  expect(await charged({ beds: manyBeds(3), note: 'n'.repeat(60_000) })).toBeGreaterThan(few)
})

test('an address with beds is asked for again as it stands; the empty form is always there', async () => {
  spend()
  const address = `/?${new URLSearchParams(BEDS)}`
  for (const path of [address, address.replace('/?', '/request?')]) {
    const refused = await app.browser().get(path)
    expect([refused.status, refused.headers['retry-after']]).toEqual([429, expect.stringMatching(/^\d+$/)])
    const address = path.replaceAll('&', '&amp;').replaceAll("'", '&#39;')
    expect(refused.text).toContain(`href="${address}"`)
    expect(refused.text).toContain(`href="${address}&amp;language=es"`)
  }
  expect((await app.browser().get('/')).status).toBe(200)
  // What is drawn for one visitor alone isn't.
  expect((await app.browser().get('/').set('cookie', 'said=Made%20up.')).status).toBe(429)
  comeBack()
  expect((await app.browser().get(address)).status).toBe(200)
})

test('what follows the typing hears when to come back, in Spanish too', async () => {
  spend()
  const refused = await postLive(BEDS).set('accept-language', 'es')
  expect([refused.status, refused.headers['retry-after']]).toEqual([429, expect.stringMatching(/^\d+$/)])
  expect(refused.text).toMatch(/en \d+ segundos?/)
  comeBack()
  expect((await postLive(BEDS)).status).toBe(200)
})

test('what strangers spend elsewhere closes no page behind a link', async () => {
  const { ownPath } = await sendRequest(app)
  while (app.deps.load.budget.take(1, '203.0.113.9') === 0);
  expect((await postForm(BEDS)).status).toBe(429)
  expect((await app.browser().get(ownPath)).status).toBe(200)
})

test('the pages behind links, which draw beds, are charged as well', async () => {
  const { ownPath } = await sendRequest(app)
  expect((await app.browser().get(ownPath)).status).toBe(200)
  spend()
  const refused = await app.browser().get(ownPath)
  expect([refused.status, refused.headers['retry-after']]).toEqual([429, expect.stringMatching(/^\d+$/)])
})

test('more beds cost more, and so does what would narrow their range', async () => {
  const few = await charged({ beds: manyBeds(3) })
  const many = await charged({ beds: manyBeds(40) })
  expect(many).toBeGreaterThan(few)
  expect(await charged({ beds: manyBeds(40), narrower: true })).toBeGreaterThan(many)
})

test('with all threads at work and the queue full, the refusal is 503, and what was typed is kept', async () => {
  app.deps.load.threads = new Threads(new URL('../limits/program.ts', import.meta.url), {
    threads: 0,
    waiting: 0,
  })
  const json = await postJson(manyBeds(40))
  expect([json.status, json.headers['retry-after']]).toEqual([503, expect.stringMatching(/^\d+$/)])
  const refused = await postForm({ ...manyBedsTyped(40), 'beds.39.count': 'x' })
  expect([refused.status, refused.headers['retry-after']]).toEqual([503, expect.stringMatching(/^\d+$/)])
  expect(new URLSearchParams(fieldsOf(refused.text)[1]).get('beds.39.count')).toBe('x')
  const sent = await sendBy(app, manyBedsTyped(40))
  expect([sent.status, sent.headers['retry-after']]).toEqual([503, expect.stringMatching(/^\d+$/)])
  expect(new URLSearchParams(fieldsOf(sent.text)[1]).get('street')).toBe(CAROL.street)
  // What is little needs no thread.
  expect((await postJson(manyBeds(3))).status).toBe(200)
})

test('work whose thread ends over it is answered 503 and logged, and the pages go on', async () => {
  const threads = new Threads(new URL('../limits/dying-program.ts', import.meta.url), {
    threads: 1,
    waiting: 5,
  })
  app.deps.load.threads = threads
  const before = app.log.length
  expect((await postJson(manyBeds(40))).status).toBe(503)
  expect(app.log.slice(before).join('')).toContain('a thread ended over its work')
  app.deps.load.threads = usual.threads
  expect((await postJson(manyBeds(40))).status).toBe(200)
  await threads.close()
})
