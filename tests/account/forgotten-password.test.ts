import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { mailsToStaff, pathIn, withMailServer } from '../helpers/mailed-links.ts'
import {
  ALICE,
  type Browser,
  HUGO,
  helperBrowser,
  openBusiness,
  provedNow,
  signedIn,
} from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  withMailServer(app, '')
  at(0)
})
afterEach(() => app.close())

const at = (minutes: number) =>
  app.setClock(Temporal.Instant.from('2026-03-02T16:00:00Z').add({ minutes }).toString())
const FRESH = 'a ladder leans on the greenhouse'
const ask = (email: string, browser = app.browser()) =>
  browser.post('/forgot-password').type('form').send({ email })
const choose = (path: string) => app.browser().post(path).type('form').send({ fresh: FRESH })
const outbox = () => app.db.selectFrom('outbox').selectAll().execute()

test('from the sign-in page by mail to a new password, once', async () => {
  expect((await app.browser().get('/sign-in')).text).toContain('href="/forgot-password"')
  const answer = await ask(ALICE.email.toUpperCase())
  expect([answer.status, answer.headers.location]).toEqual([303, '/sign-in'])
  const [mail, ...others] = await mailsToStaff(app)
  expect(others).toEqual([])
  expect(mail!.to).toEqual({ name: ALICE.name, address: ALICE.email })
  expect(mail!.subject).toBe('Choose a new password')
  expect(mail!.text).toContain(`http://localhost:8080${pathIn(mail)}`)
  expect((await owner.get('/queue')).status).toBe(200)
  expect((await app.browser().get(pathIn(mail))).text).toContain(ALICE.email)
  expect((await choose(pathIn(mail))).status).toBe(303)
  await signedIn(app, { email: ALICE.email, password: FRESH })
  expect((await owner.get('/queue')).status).toBe(303)
  expect((await app.browser().get(pathIn(mail))).status).toBe(404)
})

test('answers alike whether there is an account, and mails nobody else', async () => {
  const said = async (email: string) => {
    const browser = app.browser()
    const { status, headers } = await ask(email, browser)
    const page = await browser.get('/sign-in')
    return [status, headers.location, /<p class="flash"[^>]*>([^<]*)</.exec(page.text)![1]]
  }
  const known = await said(ALICE.email)
  expect(known[2]).toContain('If that email has an account here')
  expect(await said('nobody@fernbeds.example')).toEqual(known)
  expect(await mailsToStaff(app)).toHaveLength(1)
  const [link] = await app.db.selectFrom('password_reset').selectAll().execute()
  // What was done for nobody was done with the owner's, and taken back.
  await ask('nobody@fernbeds.example')
  expect(await app.db.selectFrom('password_reset').selectAll().execute()).toEqual([link])
  expect(await outbox()).toHaveLength(1)
})

test('a later one takes the place of the one before, and its mail is not sent', async () => {
  await ask(ALICE.email)
  at(1)
  await ask(ALICE.email)
  const [mail, ...others] = await mailsToStaff(app)
  expect(others).toEqual([])
  expect((await outbox()).map(row => row.last_fault).sort()).toEqual(['dropped: out of date', null])
  at(2)
  await ask(ALICE.email)
  expect((await app.browser().get(pathIn(mail))).status).toBe(404)
  expect((await choose(pathIn((await mailsToStaff(app))[0]))).status).toBe(303)
})

test('it lasts for half an hour, and is not mailed after that', async () => {
  await ask(ALICE.email)
  const path = pathIn((await mailsToStaff(app))[0])
  at(29)
  expect((await app.browser().get(path)).status).toBe(200)
  at(30)
  expect((await app.browser().get(path)).status).toBe(404)
  await ask(ALICE.email)
  at(61)
  expect(await mailsToStaff(app)).toEqual([])
})

test('three an hour are mailed to one account, however many ask', async () => {
  for (let nth = 0; nth < 5; nth++) {
    at(nth)
    expect((await ask(ALICE.email)).status).toBe(303)
  }
  expect(await outbox()).toHaveLength(3)
  at(61)
  await ask(ALICE.email)
  expect(await outbox()).toHaveLength(4)
})

test('whoever asks for many has to wait, and is told', async () => {
  for (let nth = 0; nth < 10; nth++) expect((await ask(`person${nth}@example.com`)).status).toBe(303)
  const answer = await ask(ALICE.email)
  expect([answer.status, answer.headers['retry-after']]).toEqual([429, '1'])
  expect(answer.text).toContain(`value="${ALICE.email}"`)
})

test.each(['', 'alice', `${'x'.repeat(2000)}@example.com`])('refuses "%s" beside its field', async email => {
  const answer = await ask(email)
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="email-error"')
  expect(await outbox()).toEqual([])
})

test('neither the store nor the log holds the link', async () => {
  await ask(ALICE.email)
  const token = pathIn((await mailsToStaff(app))[0])
    .split('/')
    .at(-1)!
  expect(Buffer.from(token, 'base64url')).toHaveLength(32)
  const stored = [await outbox(), await app.db.selectFrom('password_reset').selectAll().execute()]
  expect(JSON.stringify(stored)).not.toContain(token)
  expect(app.log.join('\n')).not.toMatch(new RegExp(`${token}|${ALICE.email}`))
})

test('without a mail server the page says what to do instead', async () => {
  app.deps.config = { ...app.deps.config, smtpUrl: undefined }
  for (const answer of [await app.browser().get('/forgot-password'), await ask(ALICE.email)]) {
    expect(answer.status).toBe(200)
    expect(answer.text).toContain('npm run bedwright -- owner reset')
    expect(answer.text).not.toContain('name="email"')
  }
  expect(await outbox()).toEqual([])
  const page = await app.browser().get('/forgot-password?language=es')
  expect(page.text).toContain('Desde aquí no se envían correos')
})

test('the owner sends a helper a link, which speaks the helper’s language', async () => {
  await helperBrowser(app)
  const helper = app.browser().set('accept-language', 'es')
  await helper.post('/sign-in').type('form').send({ email: HUGO.email, password: HUGO.password })
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('email', '=', HUGO.email)
    .executeTakeFirstOrThrow()
  await provedNow(app)
  const send = () => owner.post(`/settings/staff/${id}/password-link`)
  expect((await send()).status).toBe(303)
  const [mail] = await mailsToStaff(app)
  expect([mail!.to.address, mail!.subject]).toEqual([HUGO.email, 'Elija una contraseña nueva'])
  for (let nth = 0; nth < 2; nth++) await send()
  await send()
  expect((await owner.get('/settings')).text).toContain('got three links within this hour')
  app.deps.config = { ...app.deps.config, smtpUrl: undefined }
  const shown = await send()
  const address = /value="(http[^"]*new-password[^"]*)"/.exec(shown.text)![1]!
  expect(shown.headers['cache-control']).toContain('no-store')
  expect((await choose(new URL(address).pathname)).status).toBe(303)
  expect((await helper.get('/days')).status).toBe(303)
  expect((await (await signedIn(app, { email: HUGO.email, password: FRESH })).get('/days')).status).toBe(200)
  expect((await owner.post('/settings/staff/99/password-link')).status).toBe(404)
})

test('whoever was removed gets no mail, and no link opens their account', async () => {
  await helperBrowser(app)
  await ask(HUGO.email)
  const path = pathIn((await mailsToStaff(app))[0])
  at(1)
  await ask(HUGO.email)
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('email', '=', HUGO.email)
    .executeTakeFirstOrThrow()
  await provedNow(app)
  await owner.post(`/settings/staff/${id}/remove`)
  expect(await mailsToStaff(app)).toEqual([])
  expect((await app.browser().get(path)).status).toBe(404)
})

test('by a clock that goes on while it is written', async () => {
  let ticks = 0
  const begun = app.deps.now()
  // Assigned over the clock that stands still in tests.
  app.deps.now = () => begun.add({ milliseconds: ticks++ })
  await ask(ALICE.email)
  const [mail] = await mailsToStaff(app)
  expect((await choose(pathIn(mail))).status).toBe(303)
  expect(ticks).toBeGreaterThan(1)
})
