import { afterEach, beforeEach, expect, test } from 'vitest'
import { offerPasswordReset } from '../../src/account/password-reset.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, type Browser, helperBrowser, openBusiness, signedIn } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  app.setClock('2026-03-02T16:00:00Z')
})
afterEach(() => app.close())

const FRESH = 'a ladder leans on the greenhouse'

async function offered(): Promise<string> {
  const offer = await offerPasswordReset(app.db, app.deps.now())
  expect(offer?.email).toBe(ALICE.email)
  return `/new-password/${offer!.token}`
}
const choose = (path: string, fresh = FRESH, browser = app.browser()) =>
  browser.post(path).type('form').send({ fresh })
/** What the page says to which the button of a link leads. */
async function said(path: string, fresh?: string): Promise<string> {
  const browser = app.browser()
  const answer = await choose(path, fresh, browser)
  expect([answer.status, answer.headers.location]).toEqual([303, '/sign-in'])
  const page = await browser.get('/sign-in')
  return /<p class="flash"[^>]*>([^<]*)</.exec(page.text)?.[1] ?? page.text
}
const DONE = 'Your password is changed'
const OVER = 'This link was already used or has expired'
const signIn = (password: string, browser = app.browser()) =>
  browser.post('/sign-in').type('form').send({ email: ALICE.email, password })
const resets = () => app.db.selectFrom('password_reset').selectAll().execute()

test('the owner chooses a new password by the link, which is used up by that and ends every session', async () => {
  const helper = await helperBrowser(app)
  const path = await offered()
  const page = await app.browser().get(path)
  expect(page.status).toBe(200)
  expect(page.text).toContain(ALICE.email)
  const answer = await choose(path)
  expect([answer.status, answer.headers.location]).toEqual([303, '/sign-in'])

  expect((await owner.get('/queue')).headers.location).toMatch(/^\/sign-in/)
  expect((await helper.get('/days')).status).toBe(200)
  expect((await signIn(ALICE.password)).status).toBe(422)
  const again = await signedIn(app, { email: ALICE.email, password: FRESH })
  expect((await again.get('/queue')).status).toBe(200)
  expect(await said(path, 'another one that is long enough')).toContain(OVER)
  expect((await signIn(FRESH)).status).toBe(303)
})

test('it clears what delays the owner’s signing in', async () => {
  const guesser = app.browser()
  for (let failure = 1; failure <= 5; failure++) await signIn('not the password at all', guesser)
  await owner.post('/sign-out')
  for (let failure = 1; failure <= 5; failure++) await signIn('not the password at all', owner)
  expect([(await signIn(ALICE.password)).status, (await signIn(ALICE.password, owner)).status]).toEqual([
    429, 429,
  ])
  expect((await choose(await offered(), FRESH, owner)).status).toBe(303)
  expect([(await signIn(FRESH)).status, (await signIn(FRESH, owner)).status]).toEqual([303, 303])
})

test('asking again ends the link before', async () => {
  const [first, second] = [await offered(), await offered()]
  expect(await said(first)).toContain(OVER)
  expect((await signIn(FRESH)).status).toBe(422)
  expect(await said(second)).toContain(DONE)
})

test('it lasts for half an hour', async () => {
  const path = await offered()
  app.setClock('2026-03-02T16:29:59Z')
  expect((await app.browser().get(path)).status).toBe(200)
  app.setClock('2026-03-02T16:30:00Z')
  expect((await app.browser().get(path)).status).toBe(404)
  expect(await said(path)).toContain(OVER)
  expect((await signIn(ALICE.password)).status).toBe(303)
})

test('a used, an expired and an unknown link answer the same', async () => {
  const used = await offered()
  await choose(used)
  const expired = await offered()
  app.setClock('2026-03-02T17:00:00Z')
  const unknown = `/new-password/${'A'.repeat(43)}`
  const answers = await Promise.all([used, expired, unknown].map(path => app.browser().get(path)))
  const [first, ...others] = answers.map(({ status, text }) => [status, text.replace(/[0-9a-f-]{36}/g, '')])
  expect(first![0]).toBe(404)
  for (const other of others) expect(other).toEqual(first)
})

test('looking at the page changes nothing, and it is kept nowhere', async () => {
  const path = await offered()
  const before = await resets()
  const answer = await app.browser().get(path)
  expect(answer.headers['cache-control']).toContain('no-store')
  expect((await app.browser().head(path)).status).toBe(200)
  expect(await resets()).toEqual(before)
  expect((await owner.get('/queue')).status).toBe(200)
})

test.each([
  ['fourteen chars', 'Use 15 characters or more'],
  ['password12345678', 'too easy to guess'],
  ['Fern Beds Alice 2026!', 'too easy to guess'],
])('"%s" is refused beside its field, and the link stays', async (fresh, says) => {
  const path = await offered()
  const answer = await choose(path, fresh)
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="fresh-error"')
  expect(answer.text).toContain(says)
  expect(answer.text).not.toContain(fresh)
  expect((await choose(path)).status).toBe(303)
})

test('the page speaks Spanish too', async () => {
  const page = await app.browser().get(`${await offered()}?language=es`)
  expect(page.text).toContain('Elegir una contraseña nueva')
})

test('of two who use it at the same moment one comes first', async () => {
  const path = await offered()
  const fresh = ['the first of two long passwords', 'the second of two long passwords']
  const heard = await Promise.all(fresh.map(one => said(path, one)))
  const first = heard.findIndex(sentence => sentence.includes(DONE))
  expect(heard[1 - first]).toContain(OVER)
  expect((await signIn(fresh[first]!)).status).toBe(303)
})

test('who presses the button twice is led to sign in, and can', async () => {
  const path = await offered()
  const browser = app.browser()
  await choose(path, FRESH, browser)
  await choose(path, FRESH, browser)
  expect((await browser.get('/sign-in')).text).toContain(OVER)
  expect((await signIn(FRESH, browser)).status).toBe(303)
})

test('changing the password another way ends the link', async () => {
  const path = await offered()
  const change = { current: ALICE.password, fresh: FRESH }
  expect((await owner.post('/password').type('form').send(change)).status).toBe(303)
  expect((await app.browser().get(path)).status).toBe(404)
  expect(await resets()).toEqual([])
})

test('only a hash of the link is stored, and nothing of it is in the log', async () => {
  const path = await offered()
  await app.browser().get(path)
  const token = path.split('/').at(-1)!
  expect(Buffer.from(token, 'base64url')).toHaveLength(32)
  const [row] = await resets()
  expect(row!.token_hash).toMatch(/^[0-9a-f]{64}$/)
  expect(JSON.stringify(row)).not.toContain(token)
  expect(app.log.join('\n')).not.toContain(token)
})

test('guessing is limited to a few a minute', async () => {
  const browser = app.browser()
  const statuses: number[] = []
  for (let guess = 0; guess < 31; guess++)
    statuses.push((await browser.get(`/new-password/${String(guess).padStart(43, 'A')}`)).status)
  expect([...new Set(statuses.slice(0, 30))]).toEqual([404])
  expect(statuses[30]).toBe(429)
})
