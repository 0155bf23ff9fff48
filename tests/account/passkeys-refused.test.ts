import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { added, asked, device } from '../helpers/passkeys.ts'
import { type Browser, HUGO, helperBrowser, openBusiness, provedNow, signedIn } from '../helpers/people.ts'

const START = '2026-03-02T15:00:00Z'
const PAGE = '/password/passkeys'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  await helperBrowser(app)
})
afterAll(() => app.close())
beforeEach(() => provedNow(app))
afterEach(async () => {
  app.setClock(START)
  for (const table of ['authenticator', 'passkey', 'recovery_code', 'sign_in_failure'] as const)
    await app.db.deleteFrom(table).execute()
})

const after = (time: Temporal.DurationLike) => app.setClock(Temporal.Instant.from(START).add(time).toString())
const post = (browser: Browser, path: string, fields: object = {}) =>
  browser.post(path).type('form').send(fields)

test.each([
  ['that counts', {}],
  ['that doesn’t count', { counter: 0 }],
])('what a passkey %s answers is taken once', async (_kind, otherwise) => {
  const { phone } = await added(owner)
  const { text, answered } = await asked(app.browser())
  const answer = phone.prove(text, otherwise)
  const both = await Promise.all([answered(answer), answered(answer)])
  expect(both.map(({ status }) => status).sort()).toEqual([303, 422])
  const late = await answered(answer)
  expect([late.status, late.text.includes('id="code-error"')]).toEqual([422, true])
})

test.each([
  ['another origin', { origin: 'http://localhost:8081' }],
  ['a false page', { origin: 'https://localhost.example' }],
  ['another site', { site: 'example.com' }],
])('a passkey that answered %s is refused', async (_of, otherwise) => {
  const { phone } = await added(owner)
  const { text, answered } = await asked(app.browser())
  expect((await answered(phone.prove(text, otherwise))).status).toBe(422)
  expect((await answered(phone.prove(text))).status).toBe(303)
  const elsewhere = device().make((await owner.get(PAGE)).text, otherwise)
  expect((await post(owner, PAGE, { name: 'Elsewhere', passkey: elsewhere })).status).toBe(422)
})

test('nobody comes in by somebody else’s passkey, or by a challenge that is theirs', async () => {
  const { phone: owners } = await added(owner)
  const hugo = await signedIn(app, HUGO)
  const { phone: his } = await added(hugo, 'Hugo’s phone')
  const { text, answered } = await asked(app.browser())
  expect((await answered(his.prove(text))).status).toBe(422)
  const his2 = await asked(app.browser(), HUGO)
  expect((await answered(owners.prove(his2.text))).status).toBe(422)
  const stolen = owners.make((await hugo.get(PAGE)).text)
  expect((await post(hugo, PAGE, { name: 'Not his', passkey: stolen })).status).toBe(422)
  expect((await answered(owners.prove(text))).status).toBe(303)
})

test('a challenge stands for ten minutes, and what isn’t one of ours never', async () => {
  const { phone } = await added(owner)
  const { text, answered } = await asked(app.browser())
  const ours = /&quot;challenge&quot;:&quot;([\w-]+)&quot;/.exec(text)![1]!
  const forged = [
    Buffer.from(Buffer.from(ours, 'base64url').toString().replace(/^\d/, '9')).toString('base64url'),
    Buffer.from('a challenge of their own').toString('base64url'),
  ]
  for (const challenge of forged)
    expect((await answered(phone.prove(text.replace(ours, challenge)))).status).toBe(422)
  const page = (await owner.get(PAGE)).text
  expect((await answered(phone.prove(page))).status).toBe(422)
  after({ minutes: 10 })
  await provedNow(app)
  const late = await post(owner, PAGE, { name: 'Late', passkey: device().make(page) })
  expect([late.status, late.text.includes('We couldn’t take that passkey.')]).toEqual([422, true])
  const again = await asked(app.browser())
  expect((await again.answered(phone.prove(text))).status).toBe(422)
})

test('what is no answer of a passkey is refused like a wrong one', async () => {
  const answers = ['', '{', '[]', '{"id":"x"}', 'x'.repeat(20_000)]
  for (const passkey of answers) {
    const refused = await post(owner, PAGE, { name: 'Nothing', passkey })
    expect([refused.status, refused.text.includes('value="Nothing"')]).toEqual([422, true])
  }
  await added(owner)
  const { answered } = await asked(app.browser())
  for (const passkey of answers) expect((await answered(passkey)).status).toBe(422)
})
