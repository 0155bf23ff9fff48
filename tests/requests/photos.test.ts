import Fastify from 'fastify'
import sharp from 'sharp'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import type { Uploaded } from '../../src/http/uploaded.ts'
import { takeStrangersUploads } from '../../src/http/uploads.ts'
import { Budget } from '../../src/limits/budget.ts'
import { Space } from '../../src/limits/space.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { asked, hold, keptPhotos, measured, photo, sendOne, sendWith, tokensIn } from '../helpers/photos.ts'
import { bomb } from '../photos/pictures.ts'

let app: TestApp
let photoBudget: Budget
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  photoBudget = app.deps.load.photos
})
afterAll(() => app.close())
beforeEach(async () => {
  await app.db.deleteFrom('request_photo').execute()
  await app.db.updateTable('business').set({ photos_each: 6, photos_megabytes: 1000 }).execute()
  app.setClock('2026-03-02T15:00:00Z')
  app.deps.load.photos = photoBudget
})

const pictureOf = (path: string) =>
  app
    .browser()
    .get(path)
    .buffer(true)
    .parse((answer, done) => {
      const parts: Buffer[] = []
      answer.on('data', part => parts.push(part))
      answer.on('end', () => done(null, Buffer.concat(parts)))
    })

test('photos that were sent one by one become the request’s with their words, and the token opens nothing anymore', async () => {
  const [one, two] = [await hold(app), await hold(app)]
  const small = await pictureOf(`/request/photos/${one}`)
  expect([small.status, small.headers['content-type']]).toEqual([200, 'image/jpeg'])
  expect(small.headers['content-security-policy']).toBe("default-src 'none'; frame-ancestors 'none'; sandbox")
  expect(small.headers['x-content-type-options']).toBe('nosniff')
  expect(small.headers['cache-control']).toBe('no-store')
  expect(await sharp(small.body).metadata()).toMatchObject({ format: 'jpeg', width: 40, height: 30 })
  const fields = { 'photos.0.kept': two, 'photos.0.words': ' the  porch ', 'photos.3.kept': one }
  const sent = await sendWith(app.browser(), measured(fields))
  expect(sent.status).toBe(303)
  const kept = await keptPhotos(app)
  expect(kept.map(({ place, words, token_hash }) => [place, words, token_hash])).toEqual([
    [2, '', null],
    [1, 'the porch', null],
  ])
  expect((await pictureOf(`/request/photos/${one}`)).status).toBe(404)
  const own = await app.browser().get(sent.headers.location!)
  expect(own.text).toContain('alt="Photo 1: the porch"')
})

test('without a script photos come with the form; what is wrong is said beside its field, and all the rest is kept', async () => {
  const browser = app.browser()
  const fields = asked('photos', { name: '', 'photos.0.words': 'the bomb', 'photos.1.words': 'the porch' })
  const files = {
    'photos.0.file': bomb(),
    'photos.1.file': await photo(),
    'photos.2.file': Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'),
  }
  const refused = await sendWith(browser, fields, files)
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('<a href="#photos-1-file">It has too many pixels: 50 million at most.</a>')
  expect(refused.text).toContain('<a href="#photos-2-file">We can’t read this as a picture.')
  expect(refused.text).toContain('<a href="#name">Please tell us your name.</a>')
  expect(refused.text).toContain('value="12 Fern Lane, Austin"')
  expect(refused.text).toMatch(/id="photos-0-words"[^>]* value="the porch"/)
  const tokens = tokensIn(refused.text)
  expect(tokens).toHaveLength(1)
  const sent = await sendWith(browser, {
    ...fields,
    name: 'Carol',
    'photos.0.kept': tokens[0]!,
    'photos.0.words': 'the porch',
  })
  expect(sent.status).toBe(303)
  expect(await keptPhotos(app)).toMatchObject([{ place: 1, words: 'the porch' }])
})

test('where the beds have to be looked at again first, photos and their words are carried along', async () => {
  const browser = app.browser()
  const wrong = measured({
    'beds.0.sizes.length': 'much',
    'photos.0.words': 'the porch',
    'photos.1.words': 'the tree',
  })
  const back = await sendWith(browser, wrong, { 'photos.0.file': await photo() })
  expect([back.status, back.text.includes('id="beds-0-sizes-length"')]).toEqual([422, true])
  const [token] = tokensIn(back.text)
  expect(back.text).toContain('name="photos.1.words" value="the tree"')
  const carried = { 'photos.0.kept': token!, 'photos.0.words': 'the porch', 'photos.1.words': 'the tree' }
  const on = await browser
    .post('/ballpark')
    .type('form')
    .send({ ...measured(carried), do: 'go-on' })
  expect([on.status, tokensIn(on.text)]).toEqual([200, [token]])
  expect(on.text).toMatch(/id="photos-0-words"[^>]* value="the porch"/)
  expect(on.text).toMatch(/id="photos-1-words"[^>]* value="the tree"/)
})

test('photos alone need one, and no sizes', async () => {
  const none = await sendWith(app.browser(), asked('photos'))
  expect([none.status, none.text.includes('<a href="#photos">Add at least one photo.')]).toEqual([422, true])
  const token = await hold(app)
  const dropped = await sendWith(
    app.browser(),
    asked('photos', { 'photos.0.kept': token, 'photos.0.drop': 'yes' }),
  )
  expect(dropped.status).toBe(422)
  expect((await sendWith(app.browser(), asked('photos', { 'photos.0.kept': token }))).status).toBe(303)
})

test('a photo can be of one request alone, whoever has its token', async () => {
  const token = await hold(app)
  const answers = await Promise.all(
    [1, 2].map(() => sendWith(app.browser(), measured({ 'photos.0.kept': token }))),
  )
  expect(answers.map(({ status }) => status)).toContain(303)
  const [kept, ...others] = await keptPhotos(app)
  expect([kept?.place, others]).toEqual([1, []])
  const late = await sendWith(app.browser(), measured({ 'photos.0.kept': token }))
  expect([late.status, late.text.includes('A photo was here too long and is gone.')]).toEqual([422, true])
})

test('no more are taken than a request may have, and none where the business takes none', async () => {
  await app.db.updateTable('business').set({ photos_each: 1 }).execute()
  const two = { 'photos.0.kept': await hold(app), 'photos.1.kept': await hold(app) }
  const answer = await sendWith(app.browser(), measured(two))
  expect([answer.status, tokensIn(answer.text).length]).toEqual([422, 1])
  expect(answer.text).toContain('That’s more photos than we can take.')
  await app.db.updateTable('business').set({ photos_each: 0 }).execute()
  const off = await sendOne(app.browser(), await photo())
  expect([off.status, off.body.errors[0].message]).toEqual([422, 'We don’t take photos here.'])
  expect((await app.browser().get('/')).text).not.toContain('as=photos')
  expect((await app.browser().get('/request?as=look')).text).not.toContain('data-photos')
})

test('where all photos take up as much as they may, or those of nobody yet a share of it, the next is refused', async () => {
  await app.db.updateTable('business').set({ photos_megabytes: 10 }).execute()
  const token = await hold(app)
  await app.db.updateTable('request_photo').set({ bytes: 2_000_000 }).execute()
  const full = await sendOne(app.browser(), await photo())
  expect([full.status, full.body.errors[0].message]).toEqual([
    422,
    'We can’t take photos right now. You can send your request without them and add them later.',
  ])
  const sent = await sendWith(app.browser(), measured({ 'photos.0.kept': token }))
  const held = `${sent.headers.location}/photos/held`
  expect((await sendOne(app.browser(), await photo(), held)).status).toBe(200)
  await app.db.updateTable('request_photo').set({ bytes: 10_000_000 }).execute()
  expect((await sendOne(app.browser(), await photo(), held)).status).toBe(422)
})

test('work on photos is bounded, and whoever meets that keeps the form', async () => {
  const little = { most: 1, perSecond: 1 }
  const nothing = { network: little, site: little, all: little, mostNetworks: 10 }
  app.deps.load.photos = new Budget(app.deps.now, nothing)
  await hold(app)
  const busy = await sendOne(app.browser(), await photo())
  expect([busy.status, busy.body.errors[0].message]).toEqual([
    503,
    'We can’t take this photo right now. Try again in 1 second.',
  ])
  const form = await sendWith(app.browser(), asked('photos'), { 'photos.0.file': await photo() })
  expect([
    form.status,
    form.text.includes('<a href="#photos-0-file">We can’t take this photo right now.'),
  ]).toEqual([422, true])
  expect(form.text).toContain('value="12 Fern Lane, Austin"')
})

test('one that is held too long is gone', async () => {
  const token = await hold(app)
  app.setClock('2026-03-03T04:00:00Z')
  expect((await app.browser().get(`/request/photos/${token}`)).status).toBe(404)
  const answer = await sendWith(app.browser(), measured({ 'photos.0.kept': token }))
  expect([answer.status, answer.text.includes('is gone. Please add it again.')]).toEqual([422, true])
  // Whoever sends the next one sweeps.
  await hold(app)
  expect(await keptPhotos(app)).toHaveLength(1)
})

test('of a form that is too large, or for which there is no room, what was typed and the first photos are there', async () => {
  const space = new Space({ all: 1000, network: 1000 })
  const server = Fastify()
  takeStrangersUploads(server, space, { kept: 1000, most: 5000, least: 300 })
  server.post('/', async ({ body }) => {
    const { fields, files, cut } = body as Uploaded
    return { fields, files: Object.keys(files), cut }
  })
  const post = async (sizes: number[]) => {
    const form = new FormData()
    form.append('name', 'Carol')
    for (const [index, size] of sizes.entries())
      form.append(`photo.${index}`, new File([Buffer.alloc(size)], 'a.jpg'))
    const body = new Response(form)
    const headers = { 'content-type': body.headers.get('content-type')! }
    const payload = Buffer.from(await body.arrayBuffer())
    const answer = await server.inject({ method: 'POST', url: '/', headers, payload })
    return [answer.statusCode, answer.json()]
  }
  const name = { name: 'Carol' }
  expect(await post([200])).toEqual([200, { fields: name, files: ['photo.0'], cut: null }])
  expect(await post([200, 2000])).toEqual([200, { fields: name, files: ['photo.0'], cut: 'too much' }])
  expect((await post([6000]))[0]).toBe(413)
  expect(space.taken).toBe(0)
  const taken = space.take(1000, '192.0.2.1')
  expect(await post([200])).toEqual([200, { fields: name, files: [], cut: 'no room' }])
  space.giveBack(taken, '192.0.2.1')
  await server.close()
})
