import { afterAll, beforeAll, expect, test } from 'vitest'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import {
  givePhoto,
  hold,
  holdPast,
  photo,
  sendOne,
  sendUnseen,
  sendWith,
  tokensIn,
} from '../helpers/photos.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const browser = () => app.browser()
const photosOf = (id: number) =>
  app.db
    .selectFrom('request_photo')
    .select(['id', 'place', 'words'])
    .where('quote_request_id', '=', id)
    .orderBy('place')
    .execute()
const verbsOf = async (id: number) =>
  (
    await app.db
      .selectFrom('history')
      .select('verb')
      .where('quote_request_id', '=', id)
      .orderBy('id')
      .execute()
  ).map(({ verb }) => verb)

test('a photo is shown behind the link of its own request alone, in both sizes, and to no search engine', async () => {
  const [carol, other] = [await sendRequest(app), await sendRequest(app)]
  const id = await givePhoto(app, carol.id, 'the <porch>')
  const page = await browser().get(carol.ownPath)
  expect(page.text).toContain(`src="${carol.ownPath}/photos/${id}/small"`)
  expect(page.text).toContain('the &lt;porch&gt;')
  for (const size of ['', '/small']) {
    const shown = await browser().get(`${carol.ownPath}/photos/${id}${size}`)
    expect([shown.status, shown.headers['content-type']]).toEqual([200, 'image/jpeg'])
    expect(shown.headers['content-security-policy']).toContain('sandbox')
    expect(shown.headers['x-robots-tag']).toContain('noindex')
    for (const path of [other.ownPath, `/r/${'A'.repeat(43)}`])
      expect((await browser().get(`${path}/photos/${id}${size}`)).status).toBe(404)
  }
  expect((await browser().get(`/request/photos/${'A'.repeat(43)}`)).status).toBe(404)
})

test('the policy of a photo stands where other sites may show our pages too', async () => {
  const { id, ownPath } = await sendRequest(app)
  const path = `${ownPath}/photos/${await givePhoto(app, id)}`
  await app.db
    .updateTable('business')
    .set({ sites: ['https://fern.example'] })
    .execute()
  expect((await browser().get(ownPath)).headers['content-security-policy']).toContain('https://fern.example')
  expect((await browser().get(path)).headers['content-security-policy']).toContain('sandbox')
  await app.db.updateTable('business').set({ sites: [] }).execute()
})

test('photos are added by a script and by the form alike, in the places that are free, and the owner hears of it once', async () => {
  const { id, ownPath } = await sendRequest(app)
  const one = await sendOne(browser(), await photo(), `${ownPath}/photos/held`)
  const two = await sendWith(
    browser(),
    { 'photos.0.kept': one.body.kept, 'photos.0.words': 'the porch', 'photos.1.words': 'the tree' },
    { 'photos.1.file': await photo() },
    `${ownPath}/photos`,
  )
  expect([two.status, two.headers.location]).toEqual([303, `${ownPath}#photos`])
  const kept = await photosOf(id)
  expect(kept.map(({ place, words }) => [place, words])).toEqual([
    [1, 'the porch'],
    [2, 'the tree'],
  ])
  const remove = () => browser().post(`${ownPath}/photos/${kept[0]!.id}/remove`).type('form').send({})
  expect([(await remove()).status, (await remove()).status]).toEqual([303, 303])
  await givePhoto(app, id, 'the gate')
  expect((await photosOf(id)).map(({ place, words }) => [place, words])).toEqual([
    [1, 'the gate'],
    [2, 'the tree'],
  ])
  expect(await verbsOf(id)).toEqual(['sent', 'photos added', 'photo removed', 'photos added'])
  const told = await app.db
    .selectFrom('outbox')
    .select('kind')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'note-staff')
    .execute()
  expect(told).toHaveLength(2)
})

test('a seventh is not kept, however many are sent at once', async () => {
  const { id, ownPath } = await sendRequest(app)
  for (let time = 0; time < 5; time++) await givePhoto(app, id)
  const tokens = [await holdPast(app), await holdPast(app)]
  await Promise.all(
    tokens.map(token => browser().post(`${ownPath}/photos`).type('form').send({ 'photos.0.kept': token })),
  )
  expect((await photosOf(id)).map(({ place }) => place)).toEqual([1, 2, 3, 4, 5, 6])
  const page = await browser().get(ownPath)
  expect(page.text).not.toContain('data-photos')
  const more = await browser()
    .post(`${ownPath}/photos`)
    .type('form')
    .send({ 'photos.0.kept': await holdPast(app) })
  expect([more.status, more.text.includes('That’s more photos than we can take.')]).toEqual([422, true])
})

test('what is wrong is said beside the field, and the good one is carried on', async () => {
  const { ownPath } = await sendRequest(app)
  const none = await sendWith(browser(), { 'photos.0.words': 'the porch' }, {}, `${ownPath}/photos`)
  expect([none.status, none.text.includes('<a href="#photos">Choose a photo first.</a>')]).toEqual([
    422,
    true,
  ])
  expect(none.text).toContain('value="the porch"')
  const files = { 'photos.0.file': await photo(), 'photos.1.file': Buffer.from('no photo') }
  const some = await sendWith(browser(), {}, files, `${ownPath}/photos`)
  expect([some.status, tokensIn(some.text).length]).toEqual([422, 1])
  expect(some.text).toContain('<a href="#photos-1-file">')
})

test('once the beds were seen photos stay as they are', async () => {
  const sent = await sendRequest(app)
  const id = await givePhoto(app, sent.id)
  await setVisit(app.deps, 1, sent.id, app.deps.now().add({ hours: 24 }))
  expect((await browser().get(sent.ownPath)).text).toContain(`/photos/${id}/remove`)
  await app.db.updateTable('quote_request').set({ stage: 'measured' }).where('id', '=', sent.id).execute()
  const page = await browser().get(sent.ownPath)
  expect(page.text).toContain(`/photos/${id}/small`)
  expect(page.text).not.toContain('/remove')
  expect(page.text).not.toContain('data-photos')
  const remove = await browser().post(`${sent.ownPath}/photos/${id}/remove`).type('form').send({})
  expect([remove.status, remove.text.includes('We’ve seen the beds already')]).toEqual([409, true])
  const fields = { 'photos.0.kept': await hold(app) }
  expect((await sendWith(browser(), fields, {}, `${sent.ownPath}/photos`)).status).toBe(409)
  expect(await photosOf(sent.id)).toHaveLength(1)
})

test('without beds the page says that the price comes after they were seen, and shows it then', async () => {
  const says = {
    photos: 'Photos, without measurements. We’ll price it after we’ve seen the beds.',
    'last year': 'The same as last year. We’ll look up last year’s beds and price them.',
    look: 'A visit, without measurements. We’ll price it after we’ve seen the beds.',
  } as const
  for (const [sentAs, sentence] of Object.entries(says) as [keyof typeof says, string][]) {
    const { ownPath } = await sendUnseen(app, { sentAs })
    const { text } = await browser().get(ownPath)
    expect(text).toContain(sentence)
    expect(text).not.toContain('range-figure')
  }
})
