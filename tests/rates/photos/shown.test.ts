import { afterAll, beforeAll, expect, test } from 'vitest'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { zipOf } from '../../../src/rates/csv/zip.ts'
import { keepPhoto } from '../../../src/rates/photos/photos.ts'
import { findRateTable } from '../../../src/rates/queries.ts'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'
import { putInForce } from '../../helpers/rate-tables.ts'
import { bedTold, sendRequest, told } from '../../helpers/requests.ts'
import { phonePhoto } from '../../photos/pictures.ts'

let app: TestApp
let owner: Browser
let name: string

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  name = await keepPhoto(app.deps, 1, { jpeg: await phonePhoto(), width: 800, height: 600 })
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one => (one.slug === 'stone' ? { ...one, photo: name } : one)),
  }))
})
afterAll(() => app.close())

const img = () =>
  `<img class="swatch swatch-photo" src="/finishes/photos/${name}" alt="" width="72" height="44" loading="lazy">`
const body = async () => (await findRateTable(app.db, app.deps.now()))!.body
const upload = (files: Record<string, string>) =>
  owner.post('/rates/csv').attach('files', Buffer.from(zipOf(files, app.deps.now())), 'rates.zip')

test('homeowners see the photo where they pick a finish, and a swatch for the others', async () => {
  const page = (await app.browser().get('/')).text
  expect(page.split(img())).toHaveLength(2)
  expect(page).toMatch(/swatch-photo[^>]*><\/span>\s*<input type="radio"[^>]*value="stone"/)
  expect(page.match(/<svg class="swatch"/g)).toHaveLength(5)
  const large = `<a href="/finishes/photos/${name}" target="_blank">Larger photo<span class="unseen">: Decorative stone</span></a>`
  expect(page.split(large)).toHaveLength(2)
  expect(page.match(/Larger photo/g)).toHaveLength(1)
})

test('so does the owner at the yard', async () => {
  expect((await owner.get('/rates/today')).text).toContain(img())
})

test('a bed is still drawn with its hatching', async () => {
  const { ownPath } = await sendRequest(app, { told: told(bedTold({ finish: 'stone' })) })
  const page = (await app.browser().get(ownPath)).text
  expect(page).toContain('<pattern')
  expect(page).not.toContain('<img')
})

test('its name goes out and in with the CSV files; one that isn’t kept is told with its row', async () => {
  const files = filesOf(await body())
  expect(files['finishes.csv']).toContain(name)
  expect((await upload(files)).status).toBe(200)
  const other = '9'.repeat(64)
  const edited = { ...files, 'finishes.csv': files['finishes.csv']!.replace(/'?[0-9a-f]{64}/, other) }
  expect(edited['finishes.csv']).toContain(other)
  const refused = await upload(edited)
  expect(refused.status).toBe(422)
  // The sixth finish stands in row 7: the names of the columns are row 1.
  expect(refused.text.replace(/(\s*<[^>]*>\s*)+/g, '|')).toContain(
    `|finishes.csv|7|photo|“${'9'.repeat(40)}…”: no photo of that name is kept|`,
  )
})

test('nor is it taken in past the check of the files', async () => {
  const table = await body()
  const finishes = table.finishes.map(one => ({ ...one, photo: '9'.repeat(64) }))
  const answer = await owner
    .post('/rates/csv/take-in')
    .type('form')
    .send({ version: '2', table: JSON.stringify({ ...table, finishes }) })
  expect(answer.status).toBe(400)
})
