import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { readPdf } from '../helpers/pdf.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { photo } from '../helpers/photos.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const PAGE = '/settings/letterhead'
const filled = () =>
  owner.post(PAGE).field('postalAddress', '12 Elm Street\r\nSpringfield').field('licenseLine', 'License 123')
const logos = async () => (await app.db.selectFrom('kept_file').select('id').execute()).length

test('address, license and logo stand at the head of the paper until they are taken out', async () => {
  const { number } = await quotedRequest(app)
  const pdf = async () =>
    (await owner.get(`/queue/${number}/price.pdf`).responseType('blob').expect(200)).body as Buffer
  const bare = await pdf()
  await filled()
    .attach('logo', await photo(), { filename: 'x', contentType: 'image/jpeg' })
    .expect(303)
  const page = await owner.get(PAGE).expect(200)
  expect(page.text).toContain('Springfield</textarea>')
  expect(page.text).toContain('value="License 123"')
  expect((await owner.get(`${PAGE}/logo`).expect(200)).headers['content-type']).toBe('image/jpeg')
  const headed = await pdf()
  const { text } = await readPdf(headed)
  for (const words of ['12 Elm Street', 'Springfield', 'License 123']) expect(text).toContain(words)
  const pictures = (bytes: Buffer) => bytes.toString('latin1').split('/Subtype /Image').length - 1
  expect([pictures(bare), pictures(headed)]).toEqual([0, 1])
  // Saved again without a file, the logo stays; another replaces it, and the first is let go.
  await filled().expect(303)
  const one = await logos()
  await filled()
    .attach('logo', await photo(), { filename: 'x', contentType: 'image/jpeg' })
    .expect(303)
  expect(await logos()).toBe(one)
  await filled().field('noLogo', 'yes').expect(303)
  expect(await logos()).toBe(one - 1)
  await owner.get(`${PAGE}/logo`).expect(404)
})

test('what is no picture is refused beside its field, and what was typed stays', async () => {
  const answer = await filled().attach('logo', Buffer.from('%PDF-1.7'), {
    filename: 'x',
    contentType: 'image/png',
  })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('Choose a JPEG, a PNG, or a WebP.')
  expect(answer.text).toContain('value="License 123"')
})

test('only the owner may', async () => {
  const helper = await helperBrowser(app)
  await expectOwnerOnly(app, helper, 'get', PAGE)
  await expectOwnerOnly(app, helper, 'post', PAGE)
  await expectOwnerOnly(app, helper, 'get', `${PAGE}/logo`)
})
