import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { mailsToStaff, pathIn, withMailServer } from '../helpers/mailed-links.ts'
import { ALICE, type Browser, HUGO, invitationPath, openBusiness, signedIn } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

const START = Temporal.Instant.from('2026-03-02T15:00:00Z')
const after = (hours: number) => app.setClock(START.add({ hours }).toString())
const join = (path: string, changes: Record<string, string> = {}, browser = app.browser()) =>
  browser
    .post(path)
    .type('form')
    .send({ ...HUGO, ...changes })
const invite = (fields: Record<string, string>) =>
  owner.post('/settings/invitations').type('form').send(fields)
const signInOn = (browser: Browser, { email, password }: { email: string; password: string }) =>
  browser.post('/sign-in').type('form').send({ email, password })
const changePassword = (browser: Browser, current: string, fresh: string) =>
  browser.post('/password').type('form').send({ current, fresh, again: fresh })
const accounts = () =>
  app.db.selectFrom('account').select(['email', 'role', 'language']).orderBy('id').execute()

test('somebody who is invited chooses a password, and begins with the days; the link is used up', async () => {
  const path = await invitationPath(owner)
  expect((await owner.get('/settings')).text).toContain('through Monday, March 9')
  const page = await app.browser().get(path)
  expect(page.text).toContain(`value="${HUGO.name}"`)
  expect(page.text).toContain(`value="${HUGO.email}"`)
  expect(page.headers['cache-control']).toContain('no-store')
  const phone = app.browser()
  const answer = await join(path, {}, phone.set('accept-language', 'es'))
  expect([answer.status, answer.headers.location]).toEqual([303, '/days'])
  expect((await phone.get('/days')).status).toBe(200)
  expect((await accounts())[1]).toEqual({ email: HUGO.email, role: 'helper', language: 'es' })
  const settings = await owner.get('/settings')
  expect(settings.text).toContain(HUGO.email)
  expect(settings.text).not.toContain('not here yet')
  expect((await app.browser().get(path)).status).toBe(404)
  await signedIn(app, HUGO)
})

test('the phone that joined stays signed in for 90 days, used or not', async () => {
  const phone = app.browser()
  const { headers } = await join(await invitationPath(owner), {}, phone)
  expect(headers['set-cookie']).toContainEqual(expect.stringMatching(/^session=.*Max-Age=7776000/))
  after(90 * 24 - 1)
  expect((await phone.get('/days')).status).toBe(200)
  after(90 * 24)
  expect((await phone.get('/days')).status).toBe(303)
})

test('the phone that joined still has its 90 days after a change of password', async () => {
  const phone = app.browser()
  await join(await invitationPath(owner), {}, phone)
  after(24)
  const { headers } = await changePassword(phone, HUGO.password, 'gravel behind the blue barn')
  expect(headers['set-cookie']).toContainEqual(expect.stringMatching(/^session=.*Max-Age=7776000/))
  after(91 * 24 - 1)
  expect((await phone.get('/days')).status).toBe(200)
  after(91 * 24)
  expect((await phone.get('/days')).status).toBe(303)
})

test('signing in again, from a page that stood open, shortens nothing; over another’s session it lasts as usual', async () => {
  const phone = app.browser()
  await join(await invitationPath(owner), {}, phone)
  const again = await signInOn(phone, HUGO)
  expect(again.headers['set-cookie']).toContainEqual(expect.stringMatching(/^session=.*Max-Age=7776000/))
  const other = await signInOn(phone, ALICE)
  expect(other.headers['set-cookie']).toContainEqual(expect.stringMatching(/^session=.*Max-Age=2592000/))
  after(7 * 24)
  expect((await phone.get('/days')).status).toBe(303)
})

test('once its 90 days are over, signing in lasts as usual', async () => {
  const phone = app.browser()
  await join(await invitationPath(owner), {}, phone)
  after(90 * 24)
  const { headers } = await signInOn(phone, HUGO)
  expect(headers['set-cookie']).toContainEqual(expect.stringMatching(/^session=.*Max-Age=2592000/))
})

test('a link is good for a week', async () => {
  const path = await invitationPath(owner)
  after(7 * 24 - 1)
  expect((await app.browser().get(path)).status).toBe(200)
  after(7 * 24)
  expect((await app.browser().get(path)).status).toBe(404)
  const browser = app.browser()
  expect((await join(path, {}, browser)).headers.location).toBe('/sign-in')
  expect((await browser.get('/sign-in')).text).toContain('already used or has expired')
  expect(await accounts()).toHaveLength(1)
})

test('the owner takes one back, which ends it, and a second tap does nothing more', async () => {
  const path = await invitationPath(owner)
  const back = /action="(\/settings\/invitations\/\d+\/take-back)"/.exec(
    (await owner.get('/settings')).text,
  )![1]!
  for (let tap = 0; tap < 2; tap++) expect((await owner.post(back)).headers.location).toBe('/settings#staff')
  expect((await app.browser().get(path)).status).toBe(404)
  expect((await owner.get(back.replace('/take-back', ''))).status).toBe(404)
})

test('it is mailed in the language chosen, and the mail is not sent once it was taken back', async () => {
  withMailServer(app, '')
  await invitationPath(owner, { 'invite.language': 'es' })
  const [mail] = await mailsToStaff(app)
  expect(mail!.to).toEqual({ name: HUGO.name, address: HUGO.email })
  expect(mail!.subject).toBe('Fern Beds le invita a ayudar')
  const stored = JSON.stringify(await app.db.selectFrom('invitation').selectAll().execute())
  expect(stored).not.toContain(pathIn(mail).split('/').at(-1))
  // Asked again, the first link ends.
  await invitationPath(owner, { 'invite.email': HUGO.email.toUpperCase() })
  expect((await app.browser().get(pathIn(mail))).status).toBe(404)
  await app.db.deleteFrom('invitation').execute()
  expect(await mailsToStaff(app)).toEqual([])
  await invitationPath(owner, { 'invite.email': '' })
  expect(await mailsToStaff(app)).toEqual([])
})

test('who presses twice is in, and of two at the same moment one joins', async () => {
  const path = await invitationPath(owner)
  const phone = app.browser()
  await join(path, {}, phone)
  expect((await join(path, {}, phone)).headers.location).toBe('/days')
  const second = await invitationPath(owner, { 'invite.email': 'ida@fernbeds.example' })
  const both = ['ida@fernbeds.example', 'uma@fernbeds.example'].map(email => join(second, { email }))
  const led = (await Promise.all(both)).map(({ headers }) => headers.location)
  expect(led.sort()).toEqual(['/days', '/sign-in'])
  expect(await accounts()).toHaveLength(3)
})

test('the owner’s form refuses what can’t be beside its field, and keeps what was typed', async () => {
  const good = {
    'invite.name': HUGO.name,
    'invite.email': HUGO.email,
    'invite.role': 'helper',
    'invite.language': 'en',
  }
  for (const [field, status, changes] of [
    ['invite-name', 422, { 'invite.name': '' }],
    ['invite-email', 422, { 'invite.email': 'hugo' }],
    ['invite-role', 422, { 'invite.role': 'owner' }],
    ['invite-language', 422, { 'invite.language': 'fr' }],
    ['invite-email', 409, { 'invite.email': 'Alice@FERNBEDS.example' }],
  ] as const) {
    const answer = await invite({ ...good, ...changes })
    expect([field, answer.status]).toEqual([field, status])
    expect(answer.text).toContain(`id="${field}-error"`)
    expect(answer.text).toMatch(/value="(Hugo Moss|hugo@fernbeds.example)"/)
  }
  expect(await app.db.selectFrom('invitation').select('id').execute()).toEqual([])
})

test('whoever joins is told what can’t be, and the link stays', async () => {
  const path = await invitationPath(owner)
  for (const [field, status, changes] of [
    ['name', 422, { name: '' }],
    ['email', 422, { email: 'hugo' }],
    ['password', 422, { password: 'too short' }],
    ['password', 422, { password: 'Hugo Moss Hugo Moss' }],
    ['email', 409, { email: ALICE.email.toUpperCase() }],
  ] as const) {
    const answer = await join(path, changes)
    expect([field, answer.status]).toEqual([field, status])
    expect(answer.text).toContain(`id="${field}-error"`)
    expect(answer.text).not.toMatch(/too short"|value="Hugo Moss Hugo Moss"/)
  }
  expect(await accounts()).toHaveLength(1)
  expect((await join(path)).status).toBe(303)
})
