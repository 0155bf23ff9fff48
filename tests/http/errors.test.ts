import { request as rawRequest } from 'node:http'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, openBusiness, signedIn } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

/** Sends a path as it stands: browsers and supertest would tidy it up. */
function rawGet(path: string): Promise<{ status: number; text: string }> {
  const { promise, resolve, reject } = Promise.withResolvers<{ status: number; text: string }>()
  const sent = rawRequest(`${app.base}`, { path }, answer => {
    let text = ''
    answer.on('data', chunk => {
      text += chunk
    })
    answer.on('end', () => resolve({ status: answer.statusCode!, text }))
  })
  sent.on('error', reject).end()
  return promise
}

test('a page that is nowhere is a plain page of ours that does not echo the address', async () => {
  const answer = await app.browser().get('/seekmenot-12345?next=seekmenot-12345')
  expect(answer.status).toBe(404)
  expect(answer.type).toBe('text/html')
  expect(answer.text).toContain('There’s nothing at this address.')
  expect(answer.text).not.toContain('seekmenot-12345')
  expect(answer.headers['cache-control']).toBe('no-store')
})

test.each([
  '/%',
  '/%zz/seekmenot',
  '/%00seekmenot',
  '/set-up/%00',
  `/set-up/${'a'.repeat(500)}`,
  '//seekmenot/..%2f',
])('an odd address %s is 4xx, and is not echoed', async path => {
  const { status, text } = await rawGet(path)
  expect(status).toBeGreaterThanOrEqual(400)
  expect(status).toBeLessThan(500)
  expect(text).not.toContain('seekmenot')
})

test('who asks for JSON gets the refusal as JSON', async () => {
  const answer = await app.browser().get('/nowhere').set('accept', 'application/json')
  expect(answer.status).toBe(404)
  expect(answer.body).toMatchObject({ errors: [{ field: '', message: expect.any(String) }] })
})

test('a body that is too large is 413, and one that cannot be read is 400 or 415', async () => {
  const post = () => app.browser().post('/sign-in')
  expect(
    (
      await post()
        .type('form')
        .send(`email=${'a'.repeat(300_000)}`)
    ).status,
  ).toBe(413)
  expect((await post().type('json').send('{"email":')).status).toBe(400)
  expect((await post().type('json').send('{"__proto__":{"a":1}}')).status).toBe(400)
  expect((await post().type('text/csv').send('email,password')).status).toBe(415)
  expect((await post().type('text/plain').send('email=a')).status).toBe(415)
  expect((await post().set('content-type', 'multipart/form-data').send('x')).status).toBe(415)
})

test.each([
  ['the character NUL in a field', 'form', 'email=a%00b&password=c'],
  ['the character NUL in the name of a field', 'form', 'email%00=a&password=c'],
  ['the character NUL in JSON', 'json', '{"email":"a\\u0000b"}'],
  ['half a surrogate pair in JSON', 'json', '{"email":{"deep":["\\ud800"]}}'],
])('%s is refused with 400', async (_what, type, body) => {
  expect((await app.browser().post('/sign-in').type(type).send(body)).status).toBe(400)
})

test('fields nested without end do no harm', async () => {
  const owner = await signedIn(app, ALICE)
  const name = `${'a.'.repeat(60_000)}a`
  expect((await owner.post('/rates').type('form').send(`${name}=1`)).status).toBe(422)
  expect((await owner.post('/settings/business').type('form').send(`${name}=1`)).status).toBe(422)
  const deep = (levels: number) => `${'['.repeat(levels)}${']'.repeat(levels)}`
  const post = (body: string, type = 'json') => app.browser().post('/sign-in').type(type).send(body)
  expect((await post(deep(9000))).status).toBe(422)
  expect((await post(deep(100_000))).status).toBe(400)
})

test('more fields than any page of ours has are refused with 400 unread', async () => {
  const post = (body: string, type: string) => app.browser().post('/sign-in').type(type).send(body)
  const fields = (count: number) => Array.from({ length: count }, (_, at) => `${at}=1`).join('&')
  expect((await post(fields(9000), 'form')).status).toBe(422)
  expect((await post(fields(20_000), 'form')).status).toBe(400)
  expect((await post(`[${'1,'.repeat(20_000)}1]`, 'json')).status).toBe(400)
})

test('fields sent twice, as lists or as objects do no harm', async () => {
  const post = (body: string, type = 'form') => app.browser().post('/sign-in').type(type).send(body)
  expect((await post('email=a&email=b&password=c')).status).toBe(422)
  expect((await post('{"email":{"a":1},"password":["b"]}', 'json')).status).toBe(422)
  expect((await post('[]', 'json')).status).toBe(422)
  expect((await post('null', 'json')).status).toBe(422)
  expect((await post('"text"', 'json')).status).toBe(422)
})
