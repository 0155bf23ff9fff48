import { createHash } from 'node:crypto'
import sharp from 'sharp'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { isCheckViolation } from '../../../src/db/violations.ts'
import { findPhoto, keepPhoto } from '../../../src/rates/photos/photos.ts'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { expectOwnerOnly } from '../../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../../helpers/people.ts'
import { bomb, halves, phonePhoto } from '../../photos/pictures.ts'
import { drafting } from '../draft/drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

const PATH = '/rates/draft/photo/stone'
const seen = async () => (await draft.formOf(PATH)).seen!
const photo = async () => (await draft.stored()).body.finishes.find(({ slug }) => slug === 'stone')!.photo
const kept = () => app.db.selectFrom('finish_photo').selectAll().execute()
const uploadedIn = (page: string) => /name="uploaded" value="([0-9a-f]{64})"/.exec(page)?.[1]

async function send(fields: Record<string, string>, file?: Buffer, type = 'image/jpeg') {
  const post = owner.post(PATH)
  for (const [name, value] of Object.entries(fields)) post.field(name, value)
  // As a browser sends it where no file is chosen.
  return post.attach('photo', file ?? Buffer.alloc(0), {
    filename: file ? 'stone.jpg' : '',
    contentType: type,
  })
}

const served = (browser: Browser, name: string) =>
  browser
    .get(`/finishes/photos/${name}`)
    .buffer(true)
    .parse((answer, done) => {
      const parts: Buffer[] = []
      answer.on('data', part => parts.push(part))
      answer.on('end', () => done(null, Buffer.concat(parts)))
    })

test('a photo begins the draft where none is open', async () => {
  expect((await send({ seen: await seen() }, await phonePhoto())).status).toBe(303)
  expect(await photo()).toMatch(/^[0-9a-f]{64}$/)
})

test('a photo is kept under the hash of its bytes, put into the draft, and served to everybody for good', async () => {
  await draft.open()
  expect((await owner.get('/rates/draft/finish.stone')).text).toContain(`href="${PATH}"`)
  expect((await owner.get(PATH)).text).toContain('<svg class="swatch"')
  const answer = await send({ seen: await seen() }, await phonePhoto())
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates/draft/finish.stone'])
  const name = (await photo())!
  const picture = await served(app.browser(), name)
  expect(picture.status).toBe(200)
  expect(picture.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'cache-control': 'public, max-age=31536000, immutable',
    'x-content-type-options': 'nosniff',
  })
  expect(createHash('sha256').update(picture.body).digest('hex')).toBe(name)
  expect(await sharp(picture.body).metadata()).toMatchObject({ format: 'jpeg', width: 288, height: 176 })
  expect(await kept()).toMatchObject([{ name, width: 288, height: 176, made_by: 1, picture: picture.body }])
  expect((await owner.get(PATH)).text).toContain(`<img src="/finishes/photos/${name}" alt="Decorative stone"`)
  const draftPage = (await owner.get('/rates/draft')).text
  expect(draftPage).toContain('<td>a photo</td>')
  expect(draftPage).not.toContain(name)
})

test('a name that isn’t one, or of nothing that is kept, is not found', async () => {
  for (const name of ['0'.repeat(64), '0'.repeat(63), 'F'.repeat(64), 'stone.jpg', '%27', '..%2f..%2fetc'])
    expect([name, (await served(app.browser(), name)).status]).toEqual([name, 404])
})

test('the same photo twice is kept once, and can’t be changed or taken away', async () => {
  const picture = { jpeg: await phonePhoto(), width: 800, height: 600 }
  const names = await Promise.all([1, 2, 3].map(() => keepPhoto(app.deps, 1, picture)))
  expect(new Set(names).size).toBe(1)
  expect(await findPhoto(app.db, names[0]!)).toEqual(picture.jpeg)
  for (const change of ['update finish_photo set width = 1', 'delete from finish_photo'])
    await expect(app.store.executeSql(change)).rejects.toThrow('kept as they were made')
  const other = app.store.executeSql(
    `insert into finish_photo (name, picture, width, height, made_at, made_by)
     values ('${'0'.repeat(64)}', '\\x00', 1, 1, now(), 1)`,
  )
  expect(await other.catch(error => isCheckViolation(error))).toBe(true)
})

test('what isn’t a picture is refused beside the field, and nothing is kept', async () => {
  await draft.open()
  const jpeg = await phonePhoto()
  const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"></svg>')
  const bad: [what: string, bytes: Buffer | undefined, type: string, says: string][] = [
    ['nothing', undefined, 'application/octet-stream', 'Choose a photo.'],
    ['SVG', svg, 'image/svg+xml', 'We can’t read this as a picture.'],
    ['SVG as JPEG', svg, 'image/jpeg', 'We can’t read this as a picture.'],
    ['JPEG as PNG', jpeg, 'image/png', 'This says image/png, but it’s a JPEG.'],
    ['cut short', jpeg.subarray(0, 2000), 'image/jpeg', 'We can’t read this as a picture.'],
    ['a bomb', bomb(), 'image/png', 'It has too many pixels: 50 million at most.'],
    ['too large', Buffer.alloc(8_000_001), 'image/jpeg', 'That’s too large: 8 MB at most.'],
  ]
  for (const [what, bytes, type, says] of bad) {
    const answer = await send({ seen: await seen() }, bytes, type)
    expect([what, answer.status]).toEqual([what, 422])
    expect(answer.text).toContain(`id="photo-error">${says}`)
    expect(answer.text).toContain('<a href="#photo">')
  }
  expect(await kept()).toEqual([])
  expect((await draft.stored()).revision).toBe(1)
  expect((await send({ seen: await seen() }, Buffer.alloc(20_100_000))).status).toBe(413)
})

test('who is overtaken doesn’t lose the photo, and can save it then', async () => {
  await draft.open()
  const old = await seen()
  await draft.saveSection('costs', { 'costs.wage': '20' })
  const refused = await send({ seen: old }, await phonePhoto())
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('Alice Fern saved this draft on')
  const uploaded = uploadedIn(refused.text)!
  expect(refused.text).toContain(`<img src="/finishes/photos/${uploaded}"`)
  expect(await photo()).toBeNull()
  const newer = /name="seen" value="([^"]+)"/.exec(refused.text)![1]!
  expect((await send({ seen: newer, uploaded })).status).toBe(303)
  expect(await photo()).toBe(uploaded)
  expect((await draft.stored()).body.costs.wage).toBe('20')
})

test('of five that are saved at the same moment one is', async () => {
  await draft.open()
  const form = await seen()
  const colours = ['#000000', '#333333', '#666666', '#999999', '#cccccc']
  const photos = await Promise.all(colours.map(one => halves(one, one).jpeg().toBuffer()))
  const answers = await Promise.all(photos.map(one => send({ seen: form }, one)))
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409, 409, 409, 409])
})

test('a photo is followed by another, kept where nothing is chosen, and taken away for the swatch', async () => {
  await draft.open()
  await send({ seen: await seen() }, await phonePhoto())
  const first = await photo()
  await send({ seen: await seen() })
  expect(await photo()).toBe(first)
  await send({ seen: await seen() }, await halves('#00ff00', '#00ff00').png().toBuffer(), 'image/png')
  const second = await photo()
  expect(second).not.toBe(first)
  const both = await send({ seen: await seen(), drawn: 'yes' }, await phonePhoto())
  expect(both.status).toBe(422)
  expect(both.text).toContain('id="drawn-error">Choose either the photo or the drawing')
  expect([uploadedIn(both.text), await photo()]).toEqual([first, second])
  expect((await send({ seen: await seen(), uploaded: first!, drawn: 'yes' })).status).toBe(303)
  expect(await photo()).toBeNull()
})

test('a name that nobody uploaded is not taken', async () => {
  await draft.open()
  for (const uploaded of ['0'.repeat(64), '../x']) {
    const answer = await send({ seen: await seen(), uploaded })
    expect([uploaded, answer.status, uploadedIn(answer.text)]).toEqual([uploaded, 422, undefined])
  }
})

test('the same photo sent twice from one page is saved once, and neither answer says otherwise', async () => {
  const [from, picture] = [await seen(), await phonePhoto()]
  const answers = [await send({ seen: from }, picture), await send({ seen: from }, picture)]
  expect(answers.map(({ status }) => status)).toEqual([303, 303])
  expect((await draft.stored()).revision).toBe(1)
})

test('it is the owner’s alone, of a finish that is there', async () => {
  const helper = await helperBrowser(app)
  for (const method of ['get', 'post'] as const) await expectOwnerOnly(app, helper, method, PATH)
  expect((await send({ seen: '' }, await phonePhoto())).status).toBe(409)
  expect((await owner.get('/rates/draft/photo/gold')).status).toBe(404)
})
