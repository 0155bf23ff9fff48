import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, type Browser, helperBrowser, openBusiness, signedIn } from '../helpers/people.ts'

let app: TestApp
let helper: Browser
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

const OWNERS: ['get' | 'post', string][] = [
  ['get', '/rates'],
  ['post', '/rates'],
  ['get', '/settings'],
  ['post', '/settings/business'],
  ['post', '/settings/invitations'],
  ['get', '/settings/invitations/1'],
  ['post', '/settings/invitations/1/take-back'],
  ['post', '/settings/staff/1/password-link'],
  ['post', '/settings/staff/1/remove'],
  ['post', '/settings/staff/1/role'],
  ['get', '/queue'],
]

test.each(OWNERS)('a helper may not %s %s, and learns nothing from the refusal', async (method, path) => {
  const answer = await helper[method](path)
  expect(answer.status).toBe(403)
  expect(answer.text).toMatch(/Only the owner (and the office )?can do that\./)
  expect(answer.text).not.toMatch(/\$\d|compost|shredded|href="\/(rates|settings|queue|outbox)"/i)
})

const EVERYBODYS: typeof OWNERS = [
  ['get', '/password'],
  ['post', '/password'],
  ['post', '/sessions/end-others'],
]

test.each([...OWNERS, ...EVERYBODYS])(
  'a stranger who would %s %s is sent to sign in',
  async (method, path) => {
    const answer = await app.browser()[method](path)
    expect(answer.status).toBe(303)
    expect(answer.headers.location).toBe(
      method === 'get' ? `/sign-in?back=${encodeURIComponent(path)}` : '/sign-in',
    )
  },
)

test('a helper’s own page speaks their language, and links to no page of the owner’s', async () => {
  const page = await helper.get('/password').set('accept-language', 'es')
  expect(page.status).toBe(200)
  expect(page.text).toContain('Su contraseña y sus sesiones abiertas')
  expect(page.text).toContain('href="/days"')
  expect(page.text).not.toMatch(/href="\/(rates|settings|queue|outbox)"/)
})

test('the owner’s pages are in English and say so, whatever the browser prefers', async () => {
  const owner = await signedIn(app, ALICE)
  for (const path of ['/rates', '/settings', '/password']) {
    const { text } = await owner.get(path).set('accept-language', 'es')
    expect(text).toContain('<html lang="en">')
    expect(text).toContain('Sign out')
  }
})
