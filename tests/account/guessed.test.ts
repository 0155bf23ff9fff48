import { afterEach, beforeEach, expect, test } from 'vitest'
import { togetherHash } from '../../src/account/sign-in-delays.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { mailsToStaff, pathIn, signInLinkPath, withMailServer } from '../helpers/mailed-links.ts'
import { ALICE, openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeEach(async () => {
  app = await testApp()
  await openBusiness(app)
  withMailServer(app, '')
  at(0)
})
afterEach(() => app.close())

const at = (seconds: number) =>
  app.setClock(Temporal.Instant.from('2026-03-03T10:00:00Z').add({ seconds }).toString())
const WRONG = 'not the password at all'
const post = (network: string, url: string, fields: Record<string, string> = {}, cookie = '') =>
  app.server.inject({
    method: 'POST',
    url,
    remoteAddress: network,
    headers: {
      origin: app.deps.config.publicUrl,
      'content-type': 'application/x-www-form-urlencoded',
      cookie,
    },
    payload: new URLSearchParams(fields).toString(),
  })
const signIn = (network: string, password: string, email = ALICE.email) =>
  post(network, '/sign-in', { email, password })
/** Guesses from many networks, each as often as it likes. */
const guessFrom = async (networks: string[]) => {
  for (const network of networks) await signIn(network, WRONG)
}
const networks = (count: number, start = 0) =>
  Array.from({ length: count }, (_, nth) => `10.${(start + nth) >> 8}.${(start + nth) & 255}.1`)

test('while strangers guess at full speed the owner gets in from a new browser, by the password and by the link', async () => {
  const cafe = '203.0.113.7'
  await app.db.insertInto('sign_in_failure').values(guessed(90)).execute()
  await guessFrom(networks(11))
  const [mail, ...others] = await mailsToStaff(app)
  expect(others).toEqual([])
  expect(mail!.to.address).toBe(ALICE.email)
  expect(mail!.subject).toBe('Somebody is guessing your password')
  // A minute of it, with somebody on the owner's own network too.
  for (let second = 0; second <= 60; second += 15) {
    at(second)
    await guessFrom([cafe, cafe, ...networks(5, 200 + second)])
  }
  expect((await signIn('203.0.113.200', ALICE.password)).statusCode).toBe(303)
  expect((await signIn(cafe, ALICE.password)).statusCode).toBe(429)
  const entered = await post(cafe, pathIn(mail))
  expect([entered.statusCode, entered.headers.location]).toEqual([303, '/queue'])
  const cookie = entered.cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
  const queue = await app.server.inject({ url: '/queue', headers: { cookie } })
  expect(queue.statusCode).toBe(200)
  // From now on this browser is known, and no longer waits for what the others do.
  await post(cafe, '/sign-out', {}, cookie)
  const again = await post(cafe, '/sign-in', { email: ALICE.email, password: ALICE.password }, cookie)
  expect(again.statusCode).toBe(303)
})

test('one such mail a day, and none for an address without an account', async () => {
  await app.db.insertInto('sign_in_failure').values(guessed(100)).execute()
  await guessFrom(networks(1))
  expect(await mailsToStaff(app)).toHaveLength(1)
  for (const [hours, mails] of [
    [23, 0],
    [25, 1],
  ] as const) {
    at(hours * 3600)
    await app.db
      .updateTable('sign_in_failure')
      .set({ failures: 200, last_at: app.deps.now().toString() })
      .execute()
    await guessFrom(networks(1, hours * 10))
    expect(await mailsToStaff(app)).toHaveLength(mails)
  }
  await app.db.insertInto('sign_in_failure').values(guessed(100, 'nobody@fernbeds.example')).execute()
  const before = await app.db.selectFrom('sign_in_link').selectAll().execute()
  await signIn('198.51.100.9', WRONG, 'nobody@fernbeds.example')
  expect(await mailsToStaff(app)).toEqual([])
  expect(await app.db.selectFrom('sign_in_link').selectAll().execute()).toEqual(before)
})

test('opening the link changes nothing, as whoever checks mail does; its button signs in once', async () => {
  const { id } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const path = await signInLinkPath(app, id)
  const page = await app.browser().get(path)
  expect([page.status, page.headers['cache-control']]).toEqual([200, expect.stringContaining('no-store')])
  expect(page.headers['set-cookie']).toBeUndefined()
  const browser = app.browser()
  expect((await browser.post(path)).headers.location).toBe('/queue')
  expect((await browser.post(path)).headers.location).toBe('/queue')
  const late = app.browser()
  expect((await late.post(path)).headers.location).toBe('/sign-in')
  expect((await late.get('/sign-in')).text).toContain('already used or has expired')
  expect((await late.get('/queue')).status).toBe(303)
  expect((await app.browser().get(path)).status).toBe(404)
})

test('the link ends after half an hour, and with the password', async () => {
  const { id } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const path = await signInLinkPath(app, id)
  at(29 * 60)
  expect((await app.browser().get(path)).status).toBe(200)
  at(30 * 60)
  expect((await app.browser().get(path)).status).toBe(404)
  const second = await signInLinkPath(app, id)
  const browser = app.browser()
  await browser.post('/sign-in').type('form').send({ email: ALICE.email, password: ALICE.password })
  const change = { current: ALICE.password, fresh: 'a ladder leans on the greenhouse' }
  expect((await browser.post('/password').type('form').send(change)).status).toBe(303)
  expect((await app.browser().post(second)).headers.location).toBe('/sign-in')
})

function guessed(failures: number, email = ALICE.email) {
  return {
    who_hash: togetherHash(app.deps.secretKey, email),
    failures,
    last_at: app.deps.now().toString(),
  }
}
