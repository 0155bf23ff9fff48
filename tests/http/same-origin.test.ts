import supertest from 'supertest'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, openBusiness } from '../helpers/people.ts'

const OURS = 'http://localhost:8080'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const signIn = (headers: Record<string, string>) =>
  supertest(app.base)
    .post('/sign-in')
    .set(headers)
    .type('form')
    .send({ email: ALICE.email, password: ALICE.password })

test.each<Record<string, string>>([
  { 'sec-fetch-site': 'same-origin' },
  { 'sec-fetch-site': 'same-origin', origin: OURS },
  { origin: OURS },
])('takes a form that comes from our own pages: %o', async headers => {
  expect((await signIn(headers)).status).toBe(303)
})

test.each<Record<string, string>>([
  { 'sec-fetch-site': 'cross-site' },
  { 'sec-fetch-site': 'same-site', origin: 'http://other.localhost:8080' },
  { 'sec-fetch-site': 'none' },
  { 'sec-fetch-site': 'cross-site', origin: OURS },
  { origin: 'https://elsewhere.example' },
  { origin: 'http://localhost:8080.elsewhere.example' },
  { origin: 'null' },
  {},
])('refuses any other, and does nothing: %o', async headers => {
  const answer = await signIn(headers)
  expect(answer.status).toBe(403)
  expect(answer.headers).not.toHaveProperty('set-cookie')
})

test.each(['/settings/business', '/rates', '/password', '/sign-out'])(
  'refuses a foreign post to %s even with a session',
  async path => {
    const { headers } = await signIn({ origin: OURS })
    const cookie = (headers['set-cookie'] as unknown as string[]).map(one => one.split(';')[0]).join('; ')
    const answer = await supertest(app.base).post(path).set({ cookie, origin: 'https://elsewhere.example' })
    expect(answer.status).toBe(403)
  },
)
