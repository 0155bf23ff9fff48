import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { photo } from '../helpers/photos.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const PDF = Buffer.from('%PDF-1.7\nan invented paper')
const post = (path: string, fields = {}) => owner.post(path).type('form').send(fields)
const keep = (name: string, bytes: Buffer, type = 'application/pdf') =>
  owner
    .post('/settings/papers')
    .field('name', name)
    .attach('file', bytes, { filename: 'x', contentType: type })

async function papers() {
  return app.db
    .selectFrom('paper')
    .select(['id', 'name'])
    .where('removed_at', 'is', null)
    .orderBy('id')
    .execute()
}

test('a paper is kept once under its name, read by the firm that asks for it beside its price, and by nobody else', async () => {
  const copiesBefore = (await app.db.selectFrom('kept_file').select('bytes').execute()).filter(({ bytes }) =>
    bytes.equals(PDF),
  ).length
  const both = await Promise.all([1, 2].map(() => keep('W-9', PDF)))
  expect(both.map(({ status }) => status)).toEqual([303, 303])
  expect((await keep('w-9', Buffer.from('%PDF-2.0'))).status).toBe(303)
  const [paper, ...others] = (await papers()).filter(({ name }) => name === 'w-9')
  expect(others).toEqual([])
  const files = await app.db
    .selectFrom('kept_file')
    .select('bytes')
    .where('kind', '=', 'application/pdf')
    .execute()
  expect(files.filter(({ bytes }) => bytes.equals(PDF)).length).toBe(copiesBefore)
  const { id, path } = await quotedRequest(app)
  const other = await quotedRequest(app, '3', { phone: '(512) 555-0841', email: '' })
  const { customer_id } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const address = `/papers/${paper!.id}`
  expect((await app.browser().get(path + address)).status).toBe(404)
  expect(
    (await post(`/customers/${customer_id}/firm`, { 'papers[]': [String(paper!.id), '999'] })).status,
  ).toBe(303)
  expect((await app.browser().get(path)).text).toContain(`href="${path}${address}"`)
  const sent = await app
    .browser()
    .get(path + address)
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = []
      response.on('data', part => parts.push(part))
      response.on('end', () => done(null, Buffer.concat(parts)))
    })
  expect([sent.status, sent.body.toString()]).toEqual([200, '%PDF-2.0'])
  expect(sent.headers).toMatchObject({
    'content-disposition': 'attachment; filename="w-9.pdf"',
    'content-security-policy': expect.stringContaining('sandbox'),
    'x-content-type-options': 'nosniff',
  })
  expect((await app.browser().get(other.path + address)).status).toBe(404)
  await post(`/settings/papers/${paper!.id}/remove`)
  expect((await app.browser().get(path + address)).status).toBe(404)
  expect((await app.browser().get(path)).text).not.toContain(address)
})

test('a picture is made anew, and what is neither is refused beside its field', async () => {
  expect((await keep('Insurance', await photo(), 'image/jpeg')).status).toBe(303)
  const { kind } = await app.db
    .selectFrom('paper')
    .innerJoin('kept_file', 'kept_file.id', 'file_id')
    .select('kind')
    .where('name', '=', 'Insurance')
    .executeTakeFirstOrThrow()
  expect(kind).toBe('image/jpeg')
  const before = await papers()
  for (const [bytes, words] of [
    [Buffer.from('<svg onload="x"/>'), 'Choose a PDF, a JPEG, or a PNG.'],
    [Buffer.alloc(5_000_001, 'x'), 'more than 5 MB'],
  ] as const) {
    const refused = await keep('Kept name', bytes)
    expect([refused.status, refused.text]).toEqual([422, expect.stringContaining(words)])
    expect(refused.text).toContain('value="Kept name"')
  }
  expect((await post('/settings/papers', { name: '' })).text).toContain('Give it a name.')
  expect(await papers()).toEqual(before)
})

test('a firm’s certificate is kept as a file, and what was agreed on stays', async () => {
  const { id } = await quotedRequest(app)
  const { customer_id } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const path = `/customers/${customer_id}/firm`
  await post(path, { rules: 'Quiet before nine.', exemptNumber: 'TX-7' })
  expect((await owner.get(`${path}/certificate`)).status).toBe(404)
  const none = await owner.post(`${path}/certificate`).attach('certificate', Buffer.from('no'), 'x.txt')
  expect([none.status, none.text]).toEqual([422, expect.stringContaining('Choose a PDF')])
  expect(none.text).toContain('Quiet before nine.')
  expect((await owner.post(`${path}/certificate`).attach('certificate', PDF, 'x.pdf')).status).toBe(303)
  expect((await owner.get(`${path}/certificate`)).headers['content-type']).toContain('application/pdf')
  const page = (await owner.get(path)).text
  for (const words of ['Quiet before nine.', 'value="TX-7"', 'Download the copy'])
    expect(page).toContain(words)
})

test('only the owner may', async () => {
  const helper = await helperBrowser(app)
  for (const path of ['/settings/papers', '/settings/papers/1', '/customers/1/firm/certificate'])
    await expectOwnerOnly(app, helper, 'get', path)
  for (const path of ['/settings/papers', '/settings/papers/1/remove', '/customers/1/firm/certificate'])
    await expectOwnerOnly(app, helper, 'post', path)
})
