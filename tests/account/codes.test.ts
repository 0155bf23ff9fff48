import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { replaceKey } from '../../src/key-check.ts'
import { formsOf } from '../access/forms.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { codeOf, withCodes } from '../helpers/codes.ts'
import {
  ALICE,
  type Browser,
  HUGO,
  helperBrowser,
  openBusiness,
  provedNow,
  signedIn,
} from '../helpers/people.ts'

const START = '2026-03-02T15:00:00Z'
const PAGE = '/password/codes'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  await helperBrowser(app)
})
afterAll(() => app.close())
beforeEach(() => provedNow(app))
afterEach(async () => {
  app.setClock(START)
  await app.db.deleteFrom('authenticator').execute()
  // They outlive the app where a passkey may stand beside it.
  await app.db.deleteFrom('recovery_code').execute()
  await app.db.deleteFrom('sign_in_failure').execute()
})

const after = (time: Temporal.DurationLike) => app.setClock(Temporal.Instant.from(START).add(time).toString())
const post = (browser: Browser, path: string, fields: object = {}) =>
  browser.post(path).type('form').send(fields)
const recoveryIn = (page: string) =>
  [...page.matchAll(/<li class="number">([^<]*)<\/li>/g)].map(([, code]) => code!)

/** What is carried to the page that asks for the code, after the right password. */
async function halfOf(browser: Browser, { email, password } = ALICE): Promise<string> {
  const answer = await post(browser, '/sign-in', { email, password, back: '/days?from=here' })
  expect([answer.status, answer.headers['set-cookie']]).toEqual([200, undefined])
  const form = formsOf(answer.text, '/sign-in').find(one => one.address === '/sign-in/code')!
  return form.controls.find(({ name }) => name === 'half')!.value
}
const typeCode = (browser: Browser, half: string, code: string) =>
  post(browser, '/sign-in/code', { half, code, back: '/days?from=here' })

test('setting up: a secret, its first code, ten recovery codes shown once; other sessions end', async () => {
  const other = await signedIn(app, ALICE)
  expect((await owner.get(PAGE)).text).toContain('Set up codes')
  expect((await post(owner, `${PAGE}/begin`)).headers.location).toBe(PAGE)
  const page = await owner.get(PAGE)
  expect(page.headers['cache-control']).toContain('no-store')
  expect(page.text).toContain('class="qr-code"')
  const secret = /<code>([A-Z2-7 ]{39})<\/code>/.exec(page.text)![1]!.replaceAll(' ', '')
  const wrong = await post(owner, PAGE, { code: codeOf(app, secret, 5) })
  expect(wrong.status).toBe(422)
  expect(wrong.text).toContain('id="code-error"')
  expect((await other.get('/queue')).status).toBe(200)
  const on = await post(owner, PAGE, { code: codeOf(app, secret) })
  const codes = recoveryIn(on.text)
  expect([on.status, new Set(codes).size]).toEqual([200, 10])
  expect([(await owner.get('/queue')).status, (await other.get('/queue')).status]).toEqual([200, 303])
  const again = await post(owner, PAGE, { code: codeOf(app, secret, 1) })
  expect(again.headers.location).toBe(PAGE)
  const shown = await owner.get(PAGE)
  expect(shown.text).toContain('Recovery codes left: 10.')
  for (const code of [...codes, secret]) expect(shown.text).not.toContain(code)
  const { sealed_secret } = await app.db
    .selectFrom('authenticator')
    .select('sealed_secret')
    .executeTakeFirstOrThrow()
  expect(Buffer.from(sealed_secret, 'base64url').toString('latin1')).not.toContain(secret)
  const kept = JSON.stringify(await app.db.selectFrom('recovery_code').selectAll().execute())
  for (const code of codes) expect(kept).not.toContain(code.replace('-', ''))
})

test('the password alone signs nobody in; a code does, once', async () => {
  const { secret } = await withCodes(app, ALICE.email)
  const browser = app.browser()
  const half = await halfOf(browser)
  expect((await browser.get('/queue')).status).toBe(303)
  const wrong = await typeCode(browser, half, codeOf(app, secret, 4))
  expect([wrong.status, wrong.headers['set-cookie']]).toEqual([422, undefined])
  const code = codeOf(app, secret)
  const both = await Promise.all([typeCode(app.browser(), half, code), typeCode(app.browser(), half, code)])
  expect(both.map(({ status }) => status).sort()).toEqual([303, 422])
  expect(both.find(({ status }) => status === 303)!.headers.location).toBe('/days?from=here')
  expect((await typeCode(browser, half, code)).status).toBe(422)
  const next = await typeCode(browser, half, codeOf(app, secret, 1).replace(/^.../, '$& '))
  expect(next.status).toBe(303)
  expect((await browser.get('/queue')).status).toBe(200)
  expect((await typeCode(browser, half, codeOf(app, secret))).status).toBe(422)
})

test.each([
  [-2, 422],
  [-1, 303],
  [1, 303],
  [2, 422],
])('the code of %i steps of 30 seconds from now answers %i', async (steps, status) => {
  const { secret } = await withCodes(app, ALICE.email)
  const browser = app.browser()
  const half = await halfOf(browser)
  expect((await typeCode(browser, half, codeOf(app, secret, steps))).status).toBe(status)
})

test('each recovery code works once, however it is written, and none after new ones were made', async () => {
  const { recovery } = await withCodes(app, ALICE.email)
  const browser = app.browser()
  const half = await halfOf(browser)
  expect((await typeCode(browser, half, recovery[0]!.toUpperCase().replace('-', ' '))).status).toBe(303)
  expect((await typeCode(app.browser(), half, recovery[0]!)).status).toBe(422)
  expect((await owner.get(PAGE)).text).toContain('Recovery codes left: 9.')
  const renewed = recoveryIn((await post(owner, `${PAGE}/recovery`)).text)
  expect(renewed).toHaveLength(10)
  expect((await typeCode(app.browser(), half, recovery[1]!)).status).toBe(422)
  expect((await typeCode(app.browser(), half, renewed[9]!)).status).toBe(303)
})

test('guesses wait, strangers’ together from wherever; a browser that signed in before waits for itself alone', async () => {
  const { secret } = await withCodes(app, ALICE.email)
  const known = app.browser()
  expect((await typeCode(known, await halfOf(known), codeOf(app, secret, -1))).status).toBe(303)
  const half = await halfOf(app.browser())
  for (let nth = 1; nth <= 5; nth++) expect((await typeCode(app.browser(), half, '000000')).status).toBe(422)
  const late = await typeCode(app.browser(), half, codeOf(app, secret))
  expect([late.status, late.headers['retry-after']]).toEqual([429, '1'])
  expect((await typeCode(known, half, codeOf(app, secret))).status).toBe(303)
})

test('that the password was right holds for ten minutes, for that account and that password', async () => {
  const { secret, id } = await withCodes(app, ALICE.email)
  const half = await halfOf(app.browser())
  const until = half.split('.')[1]!
  const forged = [
    half.replace(until, String(Number(until) + 1)),
    half.replace(`${id}.`, '2.'),
    '',
    'x'.repeat(5000),
  ]
  for (const token of forged)
    expect((await typeCode(app.browser(), token, codeOf(app, secret))).headers.location).toBe('/sign-in')
  after({ minutes: 10 })
  expect((await typeCode(app.browser(), half, codeOf(app, secret))).headers.location).toBe('/sign-in')
})

test('typing the password again takes a code too, and so does what is done with codes', async () => {
  const { secret } = await withCodes(app, ALICE.email)
  after({ minutes: 16 })
  const off = (fields: object) => post(owner, `${PAGE}/off`, fields)
  const held = await off({})
  expect([held.status, held.text.includes('name="again.code"')]).toEqual([403, true])
  const password = { 'again.password': ALICE.password }
  const wrong = await off({ ...password, 'again.code': '000000' })
  expect([wrong.status, wrong.text.includes('id="again-code-error"')]).toEqual([422, true])
  expect((await off({ ...password, 'again.code': codeOf(app, secret) })).headers.location).toBe('/password')
  await signedIn(app, ALICE)
})

test('the owner turns the codes of a helper off who lost the phone', async () => {
  const { id } = await withCodes(app, HUGO.email)
  await halfOf(app.browser(), HUGO)
  expect((await owner.get('/settings')).text).toContain(`/settings/staff/${id}/codes-off`)
  for (let press = 0; press < 2; press++)
    expect((await post(owner, `/settings/staff/${id}/codes-off`)).status).toBe(303)
  await signedIn(app, HUGO)
  expect((await post(owner, '/settings/staff/99/codes-off')).status).toBe(404)
})

test('with another key nobody is asked for codes whose secrets can’t be read', async () => {
  await withCodes(app, ALICE.email)
  await replaceKey(app.db, 'another key for tests, 32 characters or more')
  await signedIn(app, ALICE)
})
