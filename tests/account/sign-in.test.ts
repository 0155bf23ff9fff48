import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const signIn = (fields: Record<string, string>) =>
  app
    .browser()
    .post('/sign-in')
    .type('form')
    .send({ email: ALICE.email, password: ALICE.password, ...fields })

test('signs in, in whatever case the address is written, and goes on to the queue', async () => {
  const answer = await signIn({ email: ' ALICE@fernbeds.example ' })
  expect(answer.status).toBe(303)
  expect(answer.headers.location).toBe('/queue')
})

test('goes back to the page that was asked for', async () => {
  const browser = app.browser()
  const guarded = await browser.get('/settings?from=mail')
  expect(guarded.status).toBe(303)
  expect(guarded.headers.location).toBe(`/sign-in?back=${encodeURIComponent('/settings?from=mail')}`)
  const page = await browser.get(guarded.headers.location!)
  expect(page.text).toContain('name="back" value="/settings?from=mail"')
  const answer = await signIn({ back: '/settings?from=mail' })
  expect(answer.headers.location).toBe('/settings?from=mail')
})

test.each([
  'https://elsewhere.example/',
  '//elsewhere.example',
  '/\\elsewhere.example',
  '/\t/elsewhere.example',
  '\\\\elsewhere.example',
  'javascript:alert(1)',
  'queue',
  '/queue\\..\\..',
  `/${'a'.repeat(3000)}`,
])('never goes on to another site: %j', async back => {
  expect((await signIn({ back })).headers.location).toBe('/queue')
})

test('a wrong password and an unknown address get one answer, with the address kept', async () => {
  const wrong = await signIn({ password: 'not the password at all' })
  const unknown = await signIn({ email: 'nobody@fernbeds.example', password: 'not the password at all' })
  for (const answer of [wrong, unknown]) {
    expect(answer.status).toBe(422)
    expect(answer.text).toMatch(/<title>Error: /)
    expect(answer.text).toContain('don’t match')
    expect(answer.text).not.toContain('not the password at all')
    expect(answer.headers).not.toHaveProperty('set-cookie')
  }
  const neutral = (text: string) => text.replaceAll(/(alice|nobody)@fernbeds\.example/g, '')
  expect(neutral(wrong.text)).toBe(neutral(unknown.text))
  expect(wrong.text).toContain('value="alice@fernbeds.example"')
})

test('refuses empty and absurd fields without asking the store', async () => {
  const absurd: Record<string, string>[] = [
    { email: '' },
    { password: '' },
    { password: 'a'.repeat(2000) },
    { email: 'a'.repeat(2000) },
  ]
  for (const fields of absurd) expect((await signIn(fields)).status).toBe(422)
})

test('speaks Spanish to whoever prefers it', async () => {
  const page = await app.browser().get('/sign-in').set('accept-language', 'es-MX,es;q=0.9')
  expect(page.text).toContain('<html lang="es">')
  expect(page.text).toContain('Contraseña')
})

test('who is signed in already goes straight on', async () => {
  const browser = app.browser()
  await browser.post('/sign-in').type('form').send({ email: ALICE.email, password: ALICE.password })
  expect((await browser.get('/sign-in')).headers.location).toBe('/queue')
})
