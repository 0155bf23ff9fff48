import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { keepLink } from '../../src/account/mailed-links.ts'
import { MOST_PASSKEYS } from '../../src/account/passkeys.ts'
import { replaceKey } from '../../src/key-check.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { codeOf, withCodes } from '../helpers/codes.ts'
import { signInLinkPath } from '../helpers/mailed-links.ts'
import { added, asked, type device, recoveryIn } from '../helpers/passkeys.ts'
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
const PAGE = '/password/passkeys'
const FRESH = 'a brand new barrow of leaves'

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
  for (const table of ['authenticator', 'passkey', 'recovery_code', 'sign_in_failure'] as const)
    await app.db.deleteFrom(table).execute()
})

const after = (time: Temporal.DurationLike) => app.setClock(Temporal.Instant.from(START).add(time).toString())
const post = (browser: Browser, path: string, fields: object = {}) =>
  browser.post(path).type('form').send(fields)
const idOf = async (email: string) =>
  (await app.db.selectFrom('account').select('id').where('email', '=', email).executeTakeFirstOrThrow()).id

test('the first passkey: recovery codes are shown once, other sessions end, and it signs in from then on', async () => {
  const other = await signedIn(app, ALICE)
  const { phone, passkey, answer } = await added(owner)
  const codes = recoveryIn(answer.text)
  expect([answer.status, new Set(codes).size]).toEqual([200, 10])
  expect([(await owner.get('/queue')).status, (await other.get('/queue')).status]).toEqual([200, 303])
  const again = await post(owner, PAGE, { name: 'My phone', passkey })
  expect(again.headers.location).toBe(PAGE)
  const page = await owner.get(PAGE)
  expect(page.text).toContain('not used yet')
  expect(page.text.match(/passkeys\/\d+\/remove/g)).toHaveLength(1)

  const browser = app.browser()
  const { text, answered } = await asked(browser)
  expect(text).toContain(phone.id)
  expect((await browser.get('/queue')).status).toBe(303)
  expect((await answered(phone.prove(text))).headers.location).toBe('/days')
  expect((await browser.get('/queue')).status).toBe(200)
  expect((await owner.get(PAGE)).text).toContain('last used')
  const byCode = await asked(app.browser())
  expect((await byCode.answered('', codes[0])).headers.location).toBe('/days')
})

test('several have a name each; the second leaves recovery codes and sessions alone', async () => {
  const { answer } = await added(owner)
  const codes = recoveryIn(answer.text)
  const { phone, answer: second } = await added(owner, 'Key on my ring')
  expect(second.headers.location).toBe(PAGE)
  const page = (await owner.get(PAGE)).text
  expect(page).toContain('My phone')
  expect(page).toContain('Key on my ring')
  expect(page).toContain('Recovery codes left: 10.')
  const { text, answered } = await asked(app.browser())
  expect((await answered(phone.prove(text))).status).toBe(303)
  expect((await (await asked(app.browser())).answered('', codes[3])).status).toBe(303)
  for (const name of ['', 'n'.repeat(61)]) {
    const unnamed = await added(owner, name)
    expect([unnamed.answer.status, unnamed.answer.text.includes('id="name-error"')]).toEqual([422, true])
  }
})

test('one that was removed is taken no more; removing is said plainly, and asks for the password again', async () => {
  const { phone } = await added(owner)
  await added(owner, 'The other one')
  const [first, second] = (await owner.get(PAGE)).text.match(/\/password\/passkeys\/\d+\/remove/g)!
  const hugo = await signedIn(app, HUGO)
  await post(hugo, first!)
  const before = await asked(app.browser())
  for (let press = 0; press < 2; press++) expect((await post(owner, first!)).headers.location).toBe(PAGE)
  expect((await before.answered(phone.prove(before.text))).status).toBe(422)
  const page = (await owner.get(PAGE)).text
  expect(page).toContain('That passkey is removed.')
  expect(page).toContain('This is all we ask for besides your password.')
  after({ minutes: 16 })
  expect([(await post(owner, second!)).status, (await owner.get(PAGE)).status]).toEqual([403, 303])
  await provedNow(app)
  await post(owner, second!)
  expect((await owner.get(PAGE)).text).toContain('You sign in with your password alone now.')
  await signedIn(app, ALICE)
  expect(await app.db.selectFrom('recovery_code').selectAll().execute()).toEqual([])
})

test('beside an app, either is enough, and recovery codes stand in for both until the last is gone', async () => {
  const { secret, recovery } = await withCodes(app, ALICE.email)
  const { phone, answer } = await added(owner)
  expect(answer.headers.location).toBe(PAGE)
  expect((await owner.get(PAGE)).text).not.toContain('This is all we ask for')
  const byApp = await asked(app.browser())
  expect((await byApp.answered('', codeOf(app, secret))).status).toBe(303)
  await post(owner, '/password/codes/off')
  expect((await owner.get('/password')).text).toContain('We still ask for a passkey.')
  const byPasskey = await asked(app.browser())
  expect((await byPasskey.answered(phone.prove(byPasskey.text))).status).toBe(303)
  expect((await (await asked(app.browser())).answered('', recovery[0])).status).toBe(303)
})

test('it is enough behind links by mail, and where the password is asked for again', async () => {
  const { phone } = await added(owner)
  const id = await idOf(ALICE.email)
  const link = await signInLinkPath(app, id)
  const browser = app.browser()
  expect((await post(browser, link)).status).toBe(422)
  const page = (await browser.get(link)).text
  expect((await post(browser, link, { passkey: phone.prove(page) })).headers.location).toBe('/queue')

  const again = await post(browser, '/password/codes/recovery')
  expect(again.status).toBe(403)
  const given = { 'again.password': ALICE.password, 'again.code': '' }
  const proved = { ...given, 'again.passkey': phone.prove(again.text) }
  expect((await post(browser, '/password/codes/recovery', given)).status).toBe(422)
  expect(recoveryIn((await post(browser, '/password/codes/recovery', proved)).text)).toHaveLength(10)

  const hash = (await app.db.selectFrom('account').select('password_hash').where('id', '=', id).execute())[0]!
  const token = await app.db.transaction().execute(trx => keepLink(trx, app.deps, 'password-link', id))
  const reset = (await browser.get(`/new-password/${token}`)).text
  const chosen = { fresh: FRESH, code: '', passkey: phone.prove(reset) }
  expect((await post(browser, `/new-password/${token}`, chosen)).headers.location).toBe('/sign-in')
  await app.db.updateTable('account').set(hash).where('id', '=', id).execute()
  owner = await comeIn(phone)
})

/** Signs the owner in again, whose sessions ended. */
async function comeIn(phone: ReturnType<typeof device>): Promise<Browser> {
  const browser = app.browser()
  const { text, answered } = await asked(browser)
  expect((await answered(phone.prove(text))).status).toBe(303)
  return browser
}

test('the owner turns them off for a helper who lost the phone; another key leaves them on', async () => {
  await added(await signedIn(app, HUGO), 'Hugo’s phone')
  const id = await idOf(HUGO.email)
  await replaceKey(app.db, app.deps.secretKey)
  await asked(app.browser(), HUGO)
  expect((await owner.get('/settings')).text).toContain(`/settings/staff/${id}/codes-off`)
  await post(owner, `/settings/staff/${id}/codes-off`)
  await signedIn(app, HUGO)
})

test('twenty are the most', async () => {
  await added(owner)
  const { id: _id, ...row } = await app.db.selectFrom('passkey').selectAll().executeTakeFirstOrThrow()
  for (let nth = 1; nth < MOST_PASSKEYS; nth++)
    await app.db
      .insertInto('passkey')
      .values({ ...row, credential_id: `${nth}` })
      .execute()
  const { answer } = await added(owner, 'One more')
  expect([answer.status, answer.text.includes('Remove one first.')]).toEqual([422, true])
})

test.each(['http://beds.example', 'https://192.0.2.7', 'https://[2001:db8::7]'])(
  'at %s they are said to be unavailable, and a recovery code is asked for',
  async publicUrl => {
    await added(owner)
    const { config } = app.deps
    app.deps.config = { ...config, publicUrl }
    const page = (await owner.get(PAGE)).text
    const atSignIn = (await asked(app.browser())).text
    app.deps.config = config
    expect(page).toContain(`Yours is ${publicUrl}.`)
    expect(page).not.toContain('data-passkey')
    expect(atSignIn).not.toContain('data-passkey')
    expect(atSignIn).toContain('One of your recovery codes.')
  },
)

test('with a passkey an app may be set up, which ends no session and keeps the recovery codes', async () => {
  await added(owner)
  await post(owner, '/password/codes/begin')
  const page = (await owner.get('/password/codes')).text
  expect(page).not.toContain('This signs you out everywhere else.')
  const other = (await app.db.selectFrom('session').select('id').execute()).length
  const secret = /<code>([A-Z2-7 ]{39})<\/code>/.exec(page)![1]!.replaceAll(' ', '')
  const on = await post(owner, '/password/codes', { code: codeOf(app, secret) })
  expect(on.headers.location).toBe('/password/codes')
  expect((await owner.get('/password/codes')).text).toContain('Recovery codes left: 10.')
  expect((await app.db.selectFrom('session').select('id').execute()).length).toBe(other)
})

test('changing the password takes one too, once a quarter of an hour has passed', async () => {
  const { phone } = await added(owner)
  after({ minutes: 16 })
  const page = (await owner.get('/password')).text
  const change = (passkey: string) =>
    post(owner, '/password', { current: ALICE.password, fresh: ALICE.password, code: '', passkey })
  expect((await change('')).status).toBe(422)
  expect((await change(phone.prove(page))).headers.location).toBe('/password')
})

test('guessed codes don’t hold a passkey up', async () => {
  const { phone } = await added(owner)
  const { text, answered } = await asked(app.browser())
  for (let nth = 0; nth < 6; nth++) await answered('', '000000')
  expect((await answered('', '000000')).status).toBe(429)
  expect((await answered(phone.prove(text))).status).toBe(303)
})

test('a counter that doesn’t go up is refused: somebody has a copy of the passkey', async () => {
  const { phone } = await added(owner)
  const first = await asked(app.browser())
  expect((await first.answered(phone.prove(first.text, { counter: 7 }))).status).toBe(303)
  for (const counter of [6, 7, 0]) {
    const next = await asked(app.browser())
    expect((await next.answered(phone.prove(next.text, { counter }))).status).toBe(422)
  }
  const last = await asked(app.browser())
  expect((await last.answered(phone.prove(last.text, { counter: 8 }))).status).toBe(303)
})

test('a passkey without a counter says 0 each time', async () => {
  const { phone } = await added(owner)
  for (let nth = 0; nth < 2; nth++) {
    const { text, answered } = await asked(app.browser())
    expect((await answered(phone.prove(text, { counter: 0 }))).status).toBe(303)
  }
})
