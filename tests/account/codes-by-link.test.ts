import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { keepLink } from '../../src/account/mailed-links.ts'
import { offerPasswordReset } from '../../src/account/password-reset.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { codeOf, withCodes } from '../helpers/codes.ts'
import { signInLinkPath } from '../helpers/mailed-links.ts'
import { ALICE, type Browser, openBusiness, signedIn } from '../helpers/people.ts'

const START = '2026-03-02T15:00:00Z'
const FRESH = 'a brand new barrow of leaves'

let app: TestApp
let hash: string
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  hash = (await app.db.selectFrom('account').select('password_hash').executeTakeFirstOrThrow()).password_hash
})
afterAll(() => app.close())
afterEach(async () => {
  app.setClock(START)
  await app.db.deleteFrom('authenticator').execute()
  await app.db.deleteFrom('sign_in_failure').execute()
  await app.db.updateTable('account').set({ password_hash: hash }).execute()
})

const post = (browser: Browser, path: string, fields: object = {}) =>
  browser.post(path).type('form').send(fields)
const newPasswordPath = async (id: number) =>
  `/new-password/${await app.db.transaction().execute(trx => keepLink(trx, app.deps, 'password-link', id))}`

test('a link that signs in takes a code, and a wrong one doesn’t use it up', async () => {
  const { id, secret } = await withCodes(app, ALICE.email)
  const path = await signInLinkPath(app, id)
  const browser = app.browser()
  expect((await browser.get(path)).text).toContain('name="code"')
  for (const fields of [{}, { code: codeOf(app, secret, 3) }]) {
    const answer = await post(browser, path, fields)
    expect([answer.status, answer.headers['set-cookie']]).toEqual([422, undefined])
    expect(answer.text).toContain('id="code-error"')
  }
  expect((await post(browser, path, { code: codeOf(app, secret) })).headers.location).toBe('/queue')
  expect((await browser.get('/queue')).status).toBe(200)
})

test('a link to choose a new password takes a code; a password that is refused uses none up', async () => {
  const { id, secret, recovery } = await withCodes(app, ALICE.email)
  const path = await newPasswordPath(id)
  expect((await app.browser().get(path)).text).toContain('name="code"')
  const choose = (fields: object) => post(app.browser(), path, fields)
  expect((await choose({ fresh: 'too short', code: recovery[0] })).status).toBe(422)
  for (const code of ['', codeOf(app, secret, 3), 'aaaaa-aaaaa'])
    expect((await choose({ fresh: FRESH, code })).status).toBe(422)
  await signedInHalf()
  expect((await choose({ fresh: FRESH, code: recovery[0] })).headers.location).toBe('/sign-in')
  expect(await app.db.selectFrom('recovery_code').selectAll().execute()).toHaveLength(9)
})

test('the link of the command takes none, and turns codes off', async () => {
  await withCodes(app, ALICE.email)
  const { token } = (await offerPasswordReset(app.db, app.deps.now()))!
  const path = `/new-password/${token}`
  expect((await app.browser().get(path)).text).not.toContain('name="code"')
  expect((await post(app.browser(), path, { fresh: FRESH })).headers.location).toBe('/sign-in')
  await signedIn(app, { email: ALICE.email, password: FRESH })
  expect(await app.db.selectFrom('recovery_code').selectAll().execute()).toEqual([])
})

test('changing the password takes a code unless one was typed within a quarter of an hour', async () => {
  const owner = app.browser()
  const { secret, recovery } = await withCodes(app, ALICE.email)
  const half = await signedInHalf()
  expect((await post(owner, '/sign-in/code', { half, code: recovery[0] })).status).toBe(303)
  expect((await owner.get('/password')).text).not.toContain('name="code"')
  app.setClock(Temporal.Instant.from(START).add({ minutes: 15 }).toString())
  expect((await owner.get('/password')).text).toContain('name="code"')
  const change = (code: string) => post(owner, '/password', { current: ALICE.password, fresh: FRESH, code })
  const refused = await change('000000')
  expect([refused.status, refused.text.includes('id="code-error"')]).toEqual([422, true])
  expect((await change(codeOf(app, secret))).headers.location).toBe('/password')
})

/** The password still is the one it was; gives what is carried to the page that asks for the code. */
async function signedInHalf(): Promise<string> {
  const { email, password } = ALICE
  const answer = await post(app.browser(), '/sign-in', { email, password })
  expect(answer.status).toBe(200)
  return /name="half" value="([^"]*)"/.exec(answer.text)![1]!
}
