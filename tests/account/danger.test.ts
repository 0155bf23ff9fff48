import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { formsOf } from '../access/forms.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { signInLinkPath } from '../helpers/mailed-links.ts'
import { ALICE, type Browser, openBusiness } from '../helpers/people.ts'

const NOW = '2026-03-02T15:00:00Z'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())
beforeEach(async () => {
  await provedBefore({ minutes: 15 })
  await app.db.deleteFrom('sign_in_failure').execute()
  await app.db.deleteFrom('invitation').execute()
})

/** As if the password had been typed so long ago. */
const provedBefore = (ago: Temporal.DurationLike) =>
  app.db
    .updateTable('session')
    .set({ proved_at: Temporal.Instant.from(NOW).subtract(ago).toString() })
    .execute()
const invited = async () =>
  (await app.db.selectFrom('invitation').select('name').execute()).map(row => row.name)

const ODD = 'Ida "B" <F> & ñ'
const invite = (fields: object = {}) =>
  owner
    .post('/settings/invitations')
    .type('form')
    .send({ 'invite.name': ODD, 'invite.email': '', 'invite.language': 'es', ...fields })

/** What the page that asks sends on, with a password typed into it. */
function sentOn(page: string, password: string) {
  const form = formsOf(page, '/settings/invitations').find(one => one.address !== '/sign-out')!
  const fields = Object.fromEntries(form.controls.map(({ name, value }) => [name, value]))
  return { address: form.address, fields: { ...fields, 'again.password': password } }
}

test('what is dangerous goes straight on for a quarter of an hour after the password', async () => {
  await provedBefore({ minutes: 14, seconds: 59 })
  expect((await invite()).status).toBe(303)
  expect(await invited()).toEqual([ODD])
})

test('after that it asks, keeps what was typed, and goes on with it', async () => {
  const held = await invite()
  expect([held.status, held.headers['cache-control']]).toEqual([403, 'no-store'])
  expect(held.text).toContain('Type your password again')
  expect(await invited()).toEqual([])
  const wrong = sentOn(held.text, 'not the password at all')
  const again = await owner.post(wrong.address).type('form').send(wrong.fields)
  expect(again.status).toBe(422)
  expect(again.text).toContain('id="again-password-error"')
  expect(again.text).not.toContain('not the password at all')
  expect(await invited()).toEqual([])
  const right = sentOn(again.text, ALICE.password)
  const done = await owner.post(right.address).type('form').send(right.fields)
  expect(done.headers.location).toMatch(/^\/settings\/invitations\/\d+$/)
  expect(await invited()).toEqual([ODD])
  const row = await app.db.selectFrom('invitation').select('language').executeTakeFirstOrThrow()
  expect(row.language).toBe('es')
  expect((await owner.get(done.headers.location!)).status).toBe(200)
})

test('a form that is faulty comes back with what was typed in it once the password was right', async () => {
  const held = await invite({ 'invite.email': 'nonsense' })
  const { address, fields } = sentOn(held.text, ALICE.password)
  const answer = await owner.post(address).type('form').send(fields)
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('value="nonsense"')
  expect(answer.text).not.toContain(ALICE.password)
})

test('a page waits until the password was typed, and is what comes next', async () => {
  await provedBefore({ minutes: 1 })
  const path = (await invite()).headers.location!
  await provedBefore({ minutes: 16 })
  const away = await owner.get(path)
  expect([away.status, away.headers.location]).toEqual([
    303,
    `/password/again?back=${encodeURIComponent(path)}`,
  ])
  const page = await owner.get(away.headers.location!)
  const { address, fields } = sentOn(page.text, ALICE.password)
  const back = await owner.post(address).type('form').send(fields)
  expect([back.status, back.headers.location]).toEqual([303, path])
  expect((await owner.get(path)).status).toBe(200)
  expect((await owner.get(`/password/again?back=${path}`)).headers.location).toBe(path)
})

test('never leads on to another site', async () => {
  const send = (back: string) =>
    owner.post('/password/again').type('form').send({ back, 'again.password': ALICE.password })
  for (const back of ['https://elsewhere.example/', '//elsewhere.example', ''])
    expect((await send(back)).headers.location).toBe('/queue')
})

test('guesses are delayed, the right password among them too', async () => {
  const guess = (password: string) => invite({ 'again.password': password })
  for (let failure = 1; failure <= 5; failure++) expect((await guess('a guess')).status).toBe(422)
  const late = await guess(ALICE.password)
  expect([late.status, late.headers['retry-after']]).toEqual([429, '1'])
  expect(late.text).toContain('&quot;B&quot;')
  expect(await invited()).toEqual([])
})

test.each([
  ['post', '/settings/invitations'],
  ['post', '/settings/helpers/1/remove'],
  ['post', '/settings/helpers/1/password-link'],
] as const)('%s %s is held up', async (method, path) => {
  expect((await owner[method](path).type('form').send({})).status).toBe(403)
})

test('whoever came in by a link has typed no password yet', async () => {
  const { id } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const browser = app.browser()
  expect((await browser.post(await signInLinkPath(app, id))).status).toBe(303)
  expect((await browser.post('/settings/helpers/1/remove')).status).toBe(403)
  expect((await browser.get('/queue')).status).toBe(200)
})
