import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, openBusiness, signedIn } from '../helpers/people.ts'

let plain: TestApp
let secure: TestApp
beforeAll(async () => {
  plain = await testApp()
  secure = await testApp({ publicUrl: 'https://quotes.example' })
  await openBusiness(plain)
  await openBusiness(secure)
})
afterAll(() => Promise.all([plain.close(), secure.close()]))

const PAGES = ['/sign-in', '/nowhere', '/queue', '/livez', '/set-up/none']

test.each(PAGES)('%s allows nothing inline, nothing from elsewhere and no frame', async path => {
  const { headers } = await plain.browser().get(path)
  const policy = headers['content-security-policy']!
  expect(policy.split(';')).toContain("default-src 'none'")
  expect(policy.split(';')).toContain("frame-ancestors 'none'")
  expect(policy.split(';')).toContain("base-uri 'none'")
  expect(policy).not.toMatch(/unsafe|\*|https?:/)
  expect(headers['x-content-type-options']).toBe('nosniff')
  expect(headers['referrer-policy']).toBe('same-origin')
  expect(headers['cross-origin-opener-policy']).toBe('same-origin')
  expect(headers['cross-origin-resource-policy']).toBe('same-origin')
  expect(headers).not.toHaveProperty('x-powered-by')
})

test('every answer switches off what no page of ours uses, and the clipboard alone is left', async () => {
  const owner = await signedIn(plain, ALICE)
  const style = [...plain.deps.assets.files.keys()].find(name => name.endsWith('.css'))
  const answers = [
    ...(await Promise.all([...PAGES, '/', `/assets/${style}`, '/%'].map(path => plain.browser().get(path)))),
    await owner.get('/queue'),
    await owner.get('/queue').set('accept', 'application/json'),
    await owner.post('/rates').type('form').send({}),
    await plain.browser().post('/ballpark').send({}),
    await plain.browser().post('/sign-in').type('text/csv').send('a'),
    await plain.browser().head('/sign-in'),
  ]
  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([200, 303, 400, 404, 415, 422]))
  for (const { headers } of answers) {
    const off = headers['permissions-policy']?.split(', ') ?? []
    for (const feature of ['camera', 'microphone', 'geolocation', 'payment', 'usb', 'display-capture'])
      expect(off).toContain(`${feature}=()`)
    // RFC 9651, 3.2: a dictionary whose keys stand once; a value that is an empty inner list lets nobody.
    expect(off.filter(one => !/^[a-z-]+=\(\)$/.test(one))).toEqual([])
    expect(new Set(off).size).toBe(off.length)
    expect(off.join()).not.toContain('clipboard-write')
  }
})

test('only a site on https asks browsers to stay on https', async () => {
  const onPlain = await plain.browser().get('/livez')
  expect(onPlain.headers).not.toHaveProperty('strict-transport-security')
  const onSecure = await secure.browser().get('/livez')
  expect(onSecure.headers['strict-transport-security']).toMatch(/^max-age=\d{8}/)
})

test('what only a link or a session opens is neither kept nor indexed', async () => {
  const { headers } = await plain.browser().get('/set-up/none')
  expect(headers['cache-control']).toBe('no-store')
  const queue = await plain.browser().get('/rates')
  expect(queue.headers['cache-control']).toBe('no-store')
  expect(queue.headers['x-robots-tag']).toContain('noindex')
})

test('what anyone may open is asked for again each time, and kept by nobody else', async () => {
  const beds = '/?beds.0.sizes.length=20&beds.0.sizes.width=5'
  for (const path of ['/', '/?x=', beds, beds.replace('/?', '/request?'), '/finishes', '/requests']) {
    const { headers } = await plain.browser().get(path)
    expect([path, headers['cache-control'], headers.vary]).toEqual([
      path,
      'private, no-cache',
      'accept-encoding, accept-language, cookie',
    ])
  }
  for (const path of ['/sign-in', '/livez', '/readyz', '/nowhere'])
    expect((await plain.browser().get(path)).headers['cache-control']).toBe('no-store')
})

const signInCookies = async (app: TestApp) => {
  const { email, password } = ALICE
  const answer = await app.browser().post('/sign-in').type('form').send({ email, password })
  expect(answer.status).toBe(303)
  return answer.headers['set-cookie'] as unknown as string[]
}

test('every cookie is HttpOnly and Lax, and Secure by PUBLIC_URL', async () => {
  const page = await secure.browser().get('/sign-in?language=es')
  const out = await secure.browser().post('/sign-out')
  const cookies = [
    ...(await signInCookies(secure)),
    ...page.headers['set-cookie']!,
    ...out.headers['set-cookie']!,
  ]
  expect(cookies.map(cookie => cookie.split('=')[0])).toEqual(
    expect.arrayContaining(['__Host-session', 'known', 'language', 'said']),
  )
  for (const cookie of cookies) {
    expect(cookie).toMatch(/; HttpOnly/)
    expect(cookie).toMatch(/; SameSite=Lax/)
    expect(cookie).toMatch(/; Secure/)
    expect(cookie).toMatch(/; Path=\/(;|$)/)
  }
  const onPlain = await signInCookies(plain)
  expect(onPlain.some(cookie => cookie.startsWith('session='))).toBe(true)
  for (const cookie of onPlain) expect(cookie).not.toMatch(/; Secure/)
})
