import { afterEach, beforeEach, expect, test } from 'vitest'
import { filesFromZip, zipOf } from '../../src/rates/csv/zip.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

const AT = Temporal.Instant.from('2026-03-02T15:00:00Z')

async function download() {
  return owner
    .get('/rates/csv/rates.zip')
    .buffer(true)
    .parse((answer, done) => {
      const parts: Buffer[] = []
      answer.on('data', part => parts.push(part))
      answer.on('end', () => done(null, Buffer.concat(parts)))
    })
}

async function filesInForce(): Promise<Record<string, string>> {
  const read = filesFromZip(new Uint8Array((await download()).body))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.files
}

/** The files in force with a text written over in one of them; fails when it isn't there. */
async function edited(file: string, from: string, to: string): Promise<Record<string, string>> {
  const files = await filesInForce()
  expect(files[file]).toContain(from)
  return { ...files, [file]: files[file]!.replace(from, to) }
}

const upload = (bytes: Uint8Array) =>
  owner.post('/rates/csv').attach('files', Buffer.from(bytes), 'rates.zip')
const uploadFiles = (files: Record<string, string>) => upload(zipOf(files, AT))

/** What the page's form would post. */
function formOf(page: string): { version: string; table: string } {
  const [, version] = /name="version" value="(\d+)"/.exec(page)!
  const [, table] = /name="table" value="([^"]*)"/.exec(page)!
  return { version: version!, table: unescaped(table!) }
}

function unescaped(markup: string): string {
  const marks: Record<string, string> = { quot: '"', '#39': "'", lt: '<', gt: '>', amp: '&' }
  return markup.replace(/&(quot|#39|lt|gt|amp);/g, (_, mark: string) => marks[mark]!)
}

const takeIn = (form: Record<string, string>) => owner.post('/rates/csv/take-in').type('form').send(form)
const inForce = async () => (await findRateTable(app.db, app.deps.now()))!

test('the table goes out as a zip that nobody keeps', async () => {
  const page = await owner.get('/rates/csv')
  expect(page.text).toContain('href="/rates/csv/rates.zip"')
  expect(page.text).toMatch(/least depth<\/th><td class="plain">in<\/td>/)
  expect((await owner.get('/rates')).text).toContain('href="/rates/csv"')

  const zip = await download()
  expect(zip.headers).toMatchObject({
    'content-type': 'application/zip',
    'content-disposition': 'attachment; filename="rates.zip"',
    'cache-control': 'no-store',
  })
  // As the set-up form of these tests has it: stone from 150 to 190, and a ZIP that starts with 7.
  const files = await filesInForce()
  expect(files['rates.csv']).toContain('\r\nstone,0,150,190,USD per ton\r\n')
  expect(files['travel.csv']).toContain("\r\n1,'78701,25,,\r\n")
})

test('what comes back as it went is no difference, and makes no version', async () => {
  const page = await uploadFiles(await filesInForce())
  expect(page.status).toBe(200)
  expect(page.text).toContain('Nothing is different from version 1')
  expect(page.text).not.toContain('action="/rates/csv/take-in"')
  const answer = await takeIn({ version: '1', table: JSON.stringify((await inForce()).body) })
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates'])
  expect((await inForce()).version).toBe(1)
  expect((await owner.get('/rates')).text).toContain('Your files match the rates in force')
})

test('a difference is shown first, and taken in as a new version', async () => {
  const before = await inForce()
  const page = await uploadFiles(await edited('rates.csv', 'stone,0,150,190', 'stone,0,150,205.50'))
  expect(page.status).toBe(200)
  expect(page.text).toContain('One thing is different from version 1')
  expect(page.text).toMatch(
    /Decorative stone, rate, upper<\/th><td>\$190 per ton<\/td><td>\$205\.50 per ton</,
  )
  expect(await inForce()).toEqual(before)

  const answer = await takeIn(formOf(page.text))
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates'])
  const after = await inForce()
  expect(after.version).toBe(2)
  const stone = before.body.finishes.findIndex(finish => finish.slug === 'stone')
  const expected = structuredClone(before.body)
  expected.finishes[stone]!.rates = [{ lower: '150', upper: '205.50' }]
  expect(after.body).toEqual(expected)
  expect((await owner.get('/rates')).text).toContain('Your files are in. Version 2 is in force.')
})

test('a name that looks like a formula or a tag is shown and kept as it is', async () => {
  const files = await edited('finishes.csv', 'stone,Decorative stone,', `stone,"'=HYPERLINK(""x"")<b>'",`)
  const page = await uploadFiles(files)
  expect(page.text).toContain('Decorative stone</td><td>=HYPERLINK(&quot;x&quot;)&lt;b&gt;&#39;</td>')
  await takeIn(formOf(page.text))
  const name = '=HYPERLINK("x")<b>\''
  expect((await inForce()).body.finishes.map(finish => finish.name.en)).toContain(name)
  expect((await filesInForce())['finishes.csv']).toContain(`stone,"'=HYPERLINK(""x"")<b>'",`)
})

test('a fault is told with file, row and column, and nothing is changed', async () => {
  const before = await inForce()
  const files = await edited('rates.csv', 'stone,0,150,190', 'stone,0,150,19')
  files['settings.csv'] = files['settings.csv']!.replace('promise,0.80', 'promise,80 %')
  const page = await uploadFiles(files)
  expect(page.status).toBe(422)
  expect(page.text).toMatch(/<title>Error: Rates in a spreadsheet/)
  expect(page.text).toMatch(
    /settings\.csv<\/th><td class="plain">12<\/td><td>value<\/td><td class="wrong">“80 %”: a figure such as 12 or 12\.50</,
  )
  expect(page.text).toMatch(
    /rates\.csv<\/th><td class="plain">7<\/td><td>upper<\/td><td class="wrong">“19”: not less than the lower rate</,
  )
  expect(await inForce()).toEqual(before)
})

test.each<[string, () => Promise<Uint8Array>, string]>([
  ['no zip', async () => new TextEncoder().encode('finish,lower,upper'), 'not a zip that can be read'],
  ['a bomb', async () => zipOf({ 'rates.csv': '0'.repeat(2_500_000) }, AT), 'more than 2 MB unpacked'],
  ['a folder', async () => zipOf({ 'a/rates.csv': '' }, AT), 'in a folder: zip the files themselves'],
  [
    'a file too few',
    async () => {
      const { 'packs.csv': _, ...files } = await filesInForce()
      return zipOf(files, AT)
    },
    'packs.csv</th><td class="plain"></td><td></td><td class="wrong">this file is missing',
  ],
  [
    'other money',
    async () => zipOf(await edited('settings.csv', 'currency,USD', 'currency,EUR'), AT),
    '“EUR”: stays USD, as the business is set up',
  ],
])('refuses %s', async (_what, bytes, message) => {
  const page = await upload(await bytes())
  expect(page.status).toBe(422)
  expect(page.text).toContain(message)
  expect((await inForce()).version).toBe(1)
})

test('asks for a file where none was chosen, and refuses one that is too large', async () => {
  for (const page of [await upload(new Uint8Array(0)), await owner.post('/rates/csv').field('other', 'x')]) {
    expect(page.status).toBe(422)
    expect(page.text).toContain('Choose the zip with your files.')
    expect(page.text).toContain('<a href="#files">')
  }
  expect((await upload(new Uint8Array(1_000_001))).status).toBe(413)
  const elsewhere = await owner.post('/rates').attach('files', Buffer.from('x'), 'rates.zip')
  expect(elsewhere.status).toBe(415)
})

test('of two owners who take something in, the later one sees the difference anew', async () => {
  const mine = formOf(
    (await uploadFiles(await edited('rates.csv', 'stone,0,150,190', 'stone,0,150,200'))).text,
  )
  const theirs = formOf((await uploadFiles(await edited('settings.csv', 'pace,2.5', 'pace,2.6'))).text)
  expect((await takeIn(theirs)).status).toBe(303)

  const late = await takeIn(mine)
  expect(late.status).toBe(409)
  expect(late.text).toContain('The rates changed in the meantime')
  expect(late.text).toMatch(/Decorative stone, rate, upper<\/th><td>\$190 per ton<\/td><td>\$200 per ton</)
  expect(late.text).toMatch(/pace<\/th><td>2\.6 ft<\/td><td>2\.5 ft</)
  expect((await inForce()).version).toBe(2)

  expect((await takeIn(formOf(late.text))).status).toBe(303)
  expect([(await inForce()).version, (await inForce()).body.pace]).toEqual([3, '2.5'])
})

test('of five that take in at the same moment one version comes', async () => {
  const form = formOf((await uploadFiles(await edited('settings.csv', 'pace,2.5', 'pace,2.6'))).text)
  const answers = await Promise.all([1, 2, 3, 4, 5].map(() => takeIn(form)))
  expect(answers.map(answer => answer.status).sort()).toEqual([303, 409, 409, 409, 409])
  expect((await inForce()).version).toBe(2)
})

test('a table that was tampered with on its way is refused', async () => {
  const { body } = await inForce()
  const tampered = [
    '',
    'null',
    '{',
    JSON.stringify({ ...body, promise: '2' }),
    JSON.stringify({ ...body, currency: 'EUR' }),
    JSON.stringify({ ...body, cautions: [{ code: 'fire', source: '\0' }] }),
  ]
  for (const table of tampered) expect((await takeIn({ version: '1', table })).status).toBe(400)
  expect((await inForce()).version).toBe(1)
})

test('the files are the owner’s alone', async () => {
  const helper = await helperBrowser(app)
  await expectOwnerOnly(app, helper, 'get', '/rates/csv')
  await expectOwnerOnly(app, helper, 'get', '/rates/csv/rates.zip')
  await expectOwnerOnly(app, helper, 'post', '/rates/csv')
  await expectOwnerOnly(app, helper, 'post', '/rates/csv/take-in')
  const refused = await helper.post('/rates/csv').attach('files', Buffer.from('x'), 'rates.zip')
  expect(refused.status).toBe(403)
})
