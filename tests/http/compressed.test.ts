import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const get = (url: string, accepted?: string) =>
  app.server.inject({ url, headers: accepted ? { 'accept-encoding': accepted } : {} })

test('a page that is made for one answer comes compressed where that is taken, and is the same', async () => {
  const path = '/?beds.1.shape=circle'
  const plain = await get(path)
  expect(plain.headers).not.toHaveProperty('content-encoding')
  for (const accepted of ['gzip', 'deflate, gzip;q=0.1, br']) {
    const packed = await get(path, accepted)
    expect(packed.headers['content-encoding']).toBe('gzip')
    expect(packed.headers['content-length']).toBe(String(packed.rawPayload.length))
    expect(gunzipSync(packed.rawPayload).toString()).toBe(plain.payload)
    expect(packed.rawPayload.length).toBeLessThan(plain.rawPayload.length / 2)
  }
  for (const accepted of [undefined, 'br', 'gzip;q=0'])
    expect((await get(path, accepted)).headers).not.toHaveProperty('content-encoding')
  // A cache between must not give the one to who takes only the other.
  for (const accepted of [undefined, 'gzip'])
    expect((await get(path, accepted)).headers.vary).toMatch(/^accept-encoding\b/)
})

test('what is short stays as it is, and so does what is packed already', async () => {
  const short = await get('/livez', 'gzip')
  expect([short.payload, short.headers['content-encoding'], short.headers.vary]).toEqual([
    'ok\n',
    undefined,
    undefined,
  ])
  const { headers } = await owner.get('/rates/csv/rates.zip').set('accept-encoding', 'gzip')
  expect(headers['content-type']).toBe('application/zip')
  expect(Number(headers['content-length'])).toBeGreaterThan(2048)
  expect(headers).not.toHaveProperty('content-encoding')
})
