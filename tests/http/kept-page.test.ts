import { request as rawRequest } from 'node:http'
import { buffer } from 'node:stream/consumers'
import { brotliDecompressSync, gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness, SETTINGS_FIELDS } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

/** Asks as a program does that adds no header of its own and unpacks nothing. */
async function get(path: string, headers: Record<string, string> = {}, method = 'GET') {
  const { promise, resolve, reject } = Promise.withResolvers<import('node:http').IncomingMessage>()
  // As an option, since an address would lose what follows a number sign.
  rawRequest(app.base, { path, headers, method }, resolve).on('error', reject).end()
  const answer = await promise
  return { status: answer.statusCode!, headers: answer.headers, body: await buffer(answer) }
}

/** From then on it is another page. */
async function changePhone(phone: string) {
  const changed = { ...SETTINGS_FIELDS, 'business.phone': phone }
  expect((await owner.post('/settings/business').type('form').send(changed)).status).toBe(303)
}

const text = async (headers: Record<string, string> = {}, path = '/') =>
  (await get(path, headers)).body.toString()

test('the empty form is the same page as is made for one visitor, in each language', async () => {
  for (const language of ['en', 'es']) {
    const headers = { 'accept-language': language }
    const kept = await text(headers)
    expect(kept).toContain(`<html lang="${language}">`)
    expect(kept).toBe(await text(headers, '/?x='))
    expect(kept).toBe(await text(headers))
  }
  expect(await text({ cookie: 'language=es' })).toBe(await text({ 'accept-language': 'es' }))
  expect(await text({ cookie: 'language=en', 'accept-language': 'es' })).toBe(await text())
})

test('it comes compressed as the browser takes it, and unpacked it is the same', async () => {
  const plain = await text()
  for (const [accepted, encoding] of [
    ['gzip, deflate, br, zstd', 'br'],
    ['gzip, deflate', 'gzip'],
    ['gzip;q=0.5, br;q=0', 'gzip'],
    ['br;q=0.001', 'br'],
    ['gzip;q=0, br;q=0.0', undefined],
    ['identity', undefined],
  ] as const) {
    const { headers, body } = await get('/', { 'accept-encoding': accepted })
    expect([accepted, headers['content-encoding']]).toEqual([accepted, encoding])
    const unpacked = { br: brotliDecompressSync, gzip: gunzipSync }
    expect((encoding ? unpacked[encoding](body) : body).toString()).toBe(plain)
    expect(headers['content-length']).toBe(String(body.length))
    expect(headers.vary).toBe('accept-encoding, accept-language, cookie')
    expect(headers['cache-control']).toBe('private, no-cache')
  }
  const head = await get('/', {}, 'HEAD')
  expect([head.status, head.headers['content-length'], head.body.length]).toEqual([
    200,
    String(Buffer.byteLength(plain)),
    0,
  ])
})

test('a browser that has it is told so, until it is another', async () => {
  const { headers } = await get('/')
  const etag = headers.etag!
  for (const known of [etag, `"another", ${etag}`]) {
    const again = await get('/', { 'if-none-match': known })
    expect([again.status, again.body.length, again.headers.etag]).toEqual([304, 0, etag])
    expect(again.headers.vary).toBe(headers.vary)
    expect(again.headers['content-security-policy']).toBe(headers['content-security-policy'])
  }
  expect((await get('/', { 'if-none-match': etag, 'accept-language': 'es' })).status).toBe(200)
  expect((await get('/', { 'if-none-match': '"another"' })).status).toBe(200)
  await changePhone('(512) 555-0123')
  const now = await get('/', { 'if-none-match': etag })
  expect(now.status).toBe(200)
  expect(now.body.toString()).toContain('(512) 555-0123')
})

test('nothing that the first to ask for it sends gets into it', async () => {
  const beds = 'beds.0.sizes.length=seekmenot&beds.0.finish=stone&postcode=seekmenot'
  for (const [at, first] of [`/#${beds}`, `/?#${beds}`, `/#?${beds}`, '/#', '/?'].entries()) {
    await changePhone(`(512) 555-01${30 + at}`)
    await get(first)
    const kept = await text()
    expect(kept).toContain(`(512) 555-01${30 + at}`)
    expect(kept).not.toContain('seekmenot')
    expect(kept).toBe(await text({}, '/?x='))
  }
})

test('an address without a query is the kept page, however it is written', async () => {
  const { etag } = (await get('/')).headers
  for (const path of ['/?', '/#', '/?&']) expect((await get(path)).headers.etag).toBe(etag)
})

test('what is said to one visitor is on her page, and on nobody else’s', async () => {
  const before = await text()
  const said = await get('/', { cookie: 'said=Kept%20for%20Carol.', 'if-none-match': 'W/"any"' })
  expect(said.body.toString()).toContain('Kept for Carol.')
  expect(said.headers['set-cookie']![0]).toMatch(/^said=;/)
  expect(said.headers).not.toHaveProperty('etag')
  expect(await text()).toBe(before)
})

test('who is signed in, or has typed something, gets a page made for that', async () => {
  // What was said to her is gone with the first page.
  await owner.get('/queue')
  expect((await owner.get('/')).headers).not.toHaveProperty('etag')
  const typed = await get('/?beds.1.shape=circle&language=es')
  expect(typed.headers).not.toHaveProperty('etag')
  expect(typed.headers['set-cookie']![0]).toMatch(/^language=es;/)
  expect(await text()).toContain('<html lang="en">')
})
