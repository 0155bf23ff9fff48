import type { UpdateResult } from 'kysely'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { togetherHash } from '../../src/account/sign-in-delays.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeEach(async () => {
  app = await testApp()
})
afterEach(() => app.close())

const WRONG = 'not the password at all'

const attempt = (email: string, password: string, browser = app.browser()) =>
  browser.post('/sign-in').type('form').send({ email, password })

const at = (seconds: number) =>
  app.setClock(Temporal.Instant.from('2026-03-03T10:00:00Z').add({ seconds }).toString())

test.each([ALICE.email, 'nobody@fernbeds.example'])(
  'after five failures %s must wait, longer each time, and is told how long',
  async email => {
    await openBusiness(app)
    at(0)
    for (let failure = 1; failure <= 5; failure++) expect((await attempt(email, WRONG)).status).toBe(422)
    let now = 0
    for (const wait of [1, 2, 4, 8, 16, 32, 60]) {
      const refused = await attempt(email, WRONG)
      expect(refused.status).toBe(429)
      expect(refused.headers['retry-after']).toBe(String(wait))
      expect(refused.text).toContain(`Please wait ${wait} seconds`)
      now += wait
      at(now)
      expect((await attempt(email, WRONG)).status).toBe(422)
    }
  },
)

test('the wait ends at a minute: nobody is ever locked out', async () => {
  await openBusiness(app)
  at(0)
  const strangers = app.browser()
  for (let failure = 0; failure < 20; failure++) {
    at(failure * 400)
    expect((await attempt(ALICE.email, WRONG, strangers)).status).toBe(422)
  }
  const refused = await attempt(ALICE.email, ALICE.password)
  expect([refused.status, refused.headers['retry-after']]).toEqual([429, '60'])
  at(19 * 400 + 60)
  expect((await attempt(ALICE.email, ALICE.password)).status).toBe(303)
  expect((await attempt(ALICE.email, WRONG)).status).toBe(422)
})

test('a stranger’s guessing does not keep out a browser that has signed in before', async () => {
  const { owner } = await openBusiness(app)
  at(0)
  await owner.post('/sign-out')
  for (let failure = 1; failure <= 5; failure++) await attempt(ALICE.email, WRONG)
  expect((await attempt(ALICE.email, ALICE.password)).status).toBe(429)
  expect((await attempt(ALICE.email, ALICE.password, owner)).status).toBe(303)
})

test('a mark of having signed in before is made with the key, and holds for one address', async () => {
  await openBusiness(app)
  at(0)
  for (let failure = 1; failure <= 5; failure++) await attempt(ALICE.email, WRONG)
  const forged = app.browser().set('cookie', `known=${'0'.repeat(32)}.${'A'.repeat(43)}`)
  expect((await attempt(ALICE.email, ALICE.password, forged)).status).toBe(429)
})

test('of twenty guesses at the same moment no more than five are looked at', async () => {
  await openBusiness(app)
  at(0)
  const answers = await Promise.all(Array.from({ length: 20 }, () => attempt(ALICE.email, WRONG)))
  expect(answers.filter(answer => answer.status === 422)).toHaveLength(5)
  expect(answers.filter(answer => answer.status === 429)).toHaveLength(15)
})

test('what is stored of failures names nobody', async () => {
  await openBusiness(app)
  await attempt(ALICE.email, WRONG)
  const rows = await app.db.selectFrom('sign_in_failure').selectAll().execute()
  // From there, and of all strangers together.
  expect(rows).toHaveLength(2)
  for (const { who_hash } of rows) expect(who_hash).toMatch(/^[\w-]{43}$/)
})

test('failures are forgotten after a day', async () => {
  await openBusiness(app)
  at(0)
  for (let failure = 1; failure <= 5; failure++) await attempt(ALICE.email, WRONG)
  at(24 * 3600 + 1)
  for (let failure = 1; failure <= 5; failure++) expect((await attempt(ALICE.email, WRONG)).status).toBe(422)
  expect((await attempt(ALICE.email, WRONG)).status).toBe(429)
})

const from = (remoteAddress: string, password: string) =>
  app.server.inject({
    method: 'POST',
    url: '/sign-in',
    remoteAddress,
    headers: { origin: app.deps.config.publicUrl, 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ email: ALICE.email, password }).toString(),
  })

test('while strangers guess from many networks, the owner gets in from a new browser, and they get one guess each', async () => {
  await openBusiness(app)
  at(0)
  for (let guess = 0; guess < 5; guess++) expect((await from('198.51.100.1', WRONG)).statusCode).toBe(422)
  const strangers = togetherHash(app.deps.secretKey, ALICE.email)
  const counted = app.db.updateTable('sign_in_failure').where('who_hash', '=', strangers)
  const [{ numUpdatedRows }] = (await counted.set({ failures: 101 }).execute()) as [UpdateResult]
  expect(numUpdatedRows).toBe(1n)
  expect((await from('203.0.113.7', ALICE.password)).statusCode).toBe(303)
  expect((await from('203.0.113.8', WRONG)).statusCode).toBe(422)
  expect((await from('203.0.113.8', WRONG)).statusCode).toBe(429)
  at(3601)
  expect((await from('203.0.113.9', WRONG)).statusCode).toBe(422)
  expect((await from('203.0.113.9', WRONG)).statusCode).toBe(422)
})

test('whoever has a whole IPv6 network has one attempt after another, not many', async () => {
  await openBusiness(app)
  at(0)
  for (let guess = 0; guess < 5; guess++)
    expect((await from(`2001:db8::${guess}`, WRONG)).statusCode).toBe(422)
  expect((await from('2001:db8::77', ALICE.password)).statusCode).toBe(429)
})
