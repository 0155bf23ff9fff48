import { afterEach, beforeEach, expect, test } from 'vitest'
import { hashSecret } from '../../src/lib/tokens.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, type Browser, helperBrowser, openBusiness, signedIn } from '../helpers/people.ts'

const START = Temporal.Instant.from('2026-03-02T15:00:00Z')

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

const after = (hours: number) => app.setClock(START.add({ hours }).toString())
const isIn = async (browser: Browser) => (await browser.get('/settings')).status === 200
const hashes = async () =>
  (await app.db.selectFrom('session').select('secret_hash').execute()).map(row => row.secret_hash)

function secretIn(answer: { headers: Record<string, unknown> }): string {
  const cookies = answer.headers['set-cookie'] as string[]
  return /^session=([^;]+)/.exec(cookies.find(one => one.startsWith('session='))!)![1]!
}

test('signing in again gives a fresh secret, and ends the old session of this browser', async () => {
  const before = await hashes()
  const answer = await owner
    .post('/sign-in')
    .type('form')
    .send({ email: ALICE.email, password: ALICE.password })
  const secret = secretIn(answer)
  expect(Buffer.from(secret, 'base64url')).toHaveLength(32)
  expect(await hashes()).toEqual([hashSecret(secret)])
  expect(before).not.toContain(hashSecret(secret))
})

test('a secret that somebody else put into the browser is never taken over', async () => {
  const browser = app.browser().set('cookie', 'session=planted')
  const answer = await browser
    .post('/sign-in')
    .type('form')
    .send({ email: ALICE.email, password: ALICE.password })
  expect(secretIn(answer)).not.toBe('planted')
  expect(await hashes()).not.toContain(hashSecret('planted'))
})

test('a session that is used lasts 30 days and no longer', async () => {
  for (let day = 1; day < 30; day += 6) {
    after(day * 24)
    expect(await isIn(owner)).toBe(true)
  }
  after(30 * 24 - 1)
  expect(await isIn(owner)).toBe(true)
  after(30 * 24)
  expect(await isIn(owner)).toBe(false)
})

test('a session that is not used for seven days is over', async () => {
  after(7 * 24 - 1)
  expect(await isIn(owner)).toBe(true)
  after(14 * 24 - 1)
  expect(await isIn(owner)).toBe(false)
})

test('signing out ends the session itself, not only the cookie', async () => {
  const answer = await owner
    .post('/sign-in')
    .type('form')
    .send({ email: ALICE.email, password: ALICE.password })
  const copy = app.browser().set('cookie', `session=${secretIn(answer)}`)
  expect(await isIn(copy)).toBe(true)
  expect((await owner.post('/sign-out')).headers.location).toBe('/sign-in')
  expect(await isIn(copy)).toBe(false)
  expect(await hashes()).toEqual([])
})

test('a new password ends the other sessions and renews this one', async () => {
  const other = await signedIn(app, ALICE)
  const before = await hashes()
  const fresh = 'a brand new barrow of leaves'
  const change = { current: ALICE.password, fresh }
  const answer = await owner.post('/password').type('form').send(change)
  expect(answer.status).toBe(303)
  expect(await isIn(owner)).toBe(true)
  expect(await isIn(other)).toBe(false)
  expect(await hashes()).toHaveLength(1)
  expect(before).not.toContain((await hashes())[0])
  await expect(signedIn(app, ALICE)).rejects.toThrow('422')
  expect(await isIn(await signedIn(app, { email: ALICE.email, password: fresh }))).toBe(true)
})

test('refuses a change of password beside what is wrong, and changes nothing', async () => {
  const good = { current: ALICE.password, fresh: 'a brand new barrow of leaves' }
  const faults = [
    ['current', { ...good, current: 'not the one until now' }],
    ['fresh', { ...good, fresh: 'too short' }],
    ['fresh', { ...good, fresh: 'Fern Beds Alice!' }],
    ['fresh', { ...good, fresh: 'x'.repeat(400) }],
    ['fresh', { ...good, fresh: '' }],
  ] as const
  for (const [field, fields] of faults) {
    const answer = await owner.post('/password').type('form').send(fields)
    expect(answer.status).toBe(422)
    expect(answer.text).toMatch(/<title>Error: /)
    expect(answer.text).toContain(`id="${field}-error"`)
  }
  expect(await isIn(await signedIn(app, ALICE))).toBe(true)
})

test('guesses of the current password are delayed as at sign-in', async () => {
  const guess = () =>
    owner.post('/password').type('form').send({ current: 'a guess', fresh: 'a brand new barrow of leaves' })
  for (let failure = 1; failure <= 5; failure++) expect((await guess()).status).toBe(422)
  expect((await guess()).status).toBe(429)
})

test('lists where one is signed in, and ends the others', async () => {
  after(1)
  const other = await signedIn(app, ALICE)
  const page = await owner.get('/password')
  expect(page.text).toContain('Signed in Mon, Mar 2, 9:00 AM')
  expect(page.text).toContain('Signed in Mon, Mar 2, 10:00 AM')
  expect(page.text.match(/This browser/g)).toHaveLength(1)
  expect((await owner.post('/sessions/end-others')).status).toBe(303)
  expect([await isIn(owner), await isIn(other)]).toEqual([true, false])
  expect((await owner.get('/password')).text).not.toContain('Sign out the others')
})

const FIREFOX = 'Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0'
const rowsIn = (page: { text: string }) =>
  [...page.text.matchAll(/<span class="row-name">([^<]*)<\/span>/g)].map(([, name]) => name)
const endsIn = (page: { text: string }) =>
  [...page.text.matchAll(/action="(\/sessions\/\d+\/end)"/g)].map(([, path]) => path!)

async function signedInBy(userAgent: string) {
  const browser = app.browser().set('user-agent', userAgent)
  const { email, password } = ALICE
  expect((await browser.post('/sign-in').type('form').send({ email, password })).status).toBe(303)
  return browser
}

test('names each browser in words, and shows neither what it sent nor what is stored of its secret', async () => {
  const names = [
    [FIREFOX, 'Firefox on Android'],
    ['', 'A browser'],
    [`<b>Nosy</b>/1.0 (${'x'.repeat(5000)})`, 'A browser'],
    ['Mozilla/5.0 (X11; Linux x86_64) Strange', 'A browser on Linux'],
  ] as const
  for (const [userAgent, name] of names) {
    const browser = await signedInBy(userAgent)
    const page = await browser.get('/password')
    expect(rowsIn(page)).toContain(name)
    expect(page.text).not.toMatch(/Mozilla|Nosy|rv:140/)
    for (const hash of await hashes()) expect(page.text).not.toContain(hash)
    await browser.post('/sign-out')
  }
  const phone = await signedInBy(FIREFOX)
  expect((await phone.get('/password?language=es')).text).toContain('Firefox on Android')
})

test('ends one browser and no other; a second press changes nothing more', async () => {
  const phone = await signedInBy(FIREFOX)
  const third = await signedIn(app, ALICE)
  const page = await owner.get('/password')
  expect(endsIn(page)).toHaveLength(2)
  const path = endsIn(await third.get('/password')).find(one => endsIn(page).includes(one))!
  for (let press = 0; press < 2; press++) {
    const answer = await third.post(path)
    expect([answer.status, answer.headers.location]).toEqual([303, '/password'])
    expect((await third.get('/password')).text).toContain('That browser is signed out.')
  }
  expect([await isIn(owner), await isIn(phone), await isIn(third)]).toEqual([true, false, true])
})

test('nobody ends somebody else’s session, or one that never was', async () => {
  const helper = await helperBrowser(app)
  const { id } = await app.db
    .selectFrom('session')
    .innerJoin('account', 'account.id', 'account_id')
    .select('session.id')
    .where('role', '=', 'owner')
    .orderBy('session.id')
    .executeTakeFirstOrThrow()
  expect((await helper.post(`/sessions/${id}/end`)).status).toBe(303)
  expect(await isIn(owner)).toBe(true)
  expect((await owner.post('/sessions/x/end')).status).toBe(404)
  expect((await owner.post('/sessions/9999999999999999/end')).status).toBe(404)
  expect((await owner.post('/sessions/999999999999999/end')).status).toBe(303)
})

test('whoever ends this very browser’s is led to sign in', async () => {
  const row = await app.db.selectFrom('session').select('id').executeTakeFirstOrThrow()
  const answer = await owner.post(`/sessions/${row.id}/end`)
  expect(answer.headers.location).toBe('/sign-in')
  expect(await isIn(owner)).toBe(false)
})
