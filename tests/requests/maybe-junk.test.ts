import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { JunkWatch } from '../../src/junk/watch.ts'
import { replaceKey } from '../../src/key-check.ts'
import { checkJunk } from '../../src/operations/check-junk.ts'
import { changeMaybeJunk } from '../../src/requests/maybe-junk/change.ts'
import { deleteBeyond } from '../../src/requests/maybe-junk/hold.ts'
import { sweepMaybeJunk } from '../../src/requests/maybe-junk/sweep.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { JUNK, NO_BEDS, sendJunk } from '../helpers/maybe-junk.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { holdPast } from '../helpers/photos.ts'
import { CAROL } from '../helpers/request-form.ts'

const CAME = '2026-03-02T15:00:00Z'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())
beforeEach(async () => {
  app.setClock(CAME)
  app.deps.load.junk = new JunkWatch(app.deps.now)
  await app.db.deleteFrom('maybe_junk').execute()
})

const rows = async (table: 'quote_request' | 'customer' | 'place' | 'bed' | 'outbox' | 'link' | 'history') =>
  (await app.db.selectFrom(table).selectAll().execute()).length

async function everything() {
  const tables = ['quote_request', 'customer', 'place', 'bed', 'outbox', 'link', 'history'] as const
  return Promise.all(tables.map(rows))
}

const holdOne = (fields: Record<string, string> = {}) => sendJunk(app, { ...JUNK, ...fields })

const requestOf = (number: string) =>
  app.db.selectFrom('quote_request').selectAll().where('number', '=', number).executeTakeFirst()

const mailsOf = (id: number) =>
  app.db.selectFrom('outbox').select(['kind', 'recipient']).where('quote_request_id', '=', id).execute()

test('in doubt it is taken and answered as ever, and stands in no table that anything else reads', async () => {
  const before = await everything()
  const queued = app.queued.length
  const { own, number, sending } = await holdOne()
  expect(await everything()).toEqual(before)
  expect(app.queued).toHaveLength(queued)
  expect(sending).toMatchObject({ name: 'Carol Reyes', note: JUNK.note, street: CAROL.street })
  const page = await app.browser().get(own)
  expect(page.status).toBe(200)
  for (const shown of [number, 'Carol Reyes', 'code 12', '$']) expect(page.text).toContain(shown)
  for (const hidden of ['/call-off', 'offersMail', 'name="photos', `${own}/text`])
    expect(page.text).not.toContain(hidden)
  expect((await app.browser().get(`${own}/call-off`)).status).toBe(404)
})

test('the staff see a line that leads to the list, with the reasons and nothing to tap in what was typed', async () => {
  expect((await owner.get('/queue')).text).not.toContain('maybe junk')
  const { number } = await holdOne()
  await holdOne({ note: '<a href="https://a.example">x</a>', name: 'Zelda' })
  expect((await owner.get('/queue')).text).toContain('<a href="/queue/maybe-junk">2 held as maybe junk</a>')
  const { text } = await owner.get('/queue/maybe-junk')
  for (const shown of [
    number,
    'A box that people don’t see was filled in',
    '1 link in the note',
    'Carol Reyes',
  ])
    expect(text).toContain(shown)
  expect(text).not.toMatch(/href="(https?:|mailto:|tel:)/)
  // What has less against it comes first, though it came first too.
  expect(text.indexOf('Carol Reyes')).toBeLessThan(text.indexOf('Zelda'))
  expect((await owner.get('/queue?q=Zelda')).text).toContain('Nothing found')
  expect((await owner.get(`/queue/${number}`)).status).toBe(404)
})

test('one tap moves it into the queue as if it had come when it came, with one mail, however often it is tapped', async () => {
  const token = await holdPast(app)
  const { own, number, id } = await holdOne({ 'photos.0.kept': token, 'photos.0.words': 'the porch' })
  const photo = await app.db
    .selectFrom('request_photo')
    .select('id')
    .where('maybe_junk_id', '=', id)
    .executeTakeFirstOrThrow()
  expect((await app.browser().get(`${own}/photos/${photo.id}/small`)).status).toBe(200)
  const path = `/queue/maybe-junk/${number}/real`
  app.setClock('2026-03-04T09:00:00Z')
  const answers = await Promise.all([1, 2, 3].map(() => owner.post(path)))
  expect(answers.map(({ status, headers }) => [status, headers.location])).toEqual(
    Array(3).fill([303, '/queue/maybe-junk']),
  )
  const request = (await requestOf(number))!
  expect(request).toMatchObject({ stage: 'new', step: 'Call', note: JUNK.note })
  expect([request.arrived_at, request.stage_at].map(at => at.slice(0, 13))).toEqual(
    Array(2).fill('2026-03-02T15'),
  )
  expect(await mailsOf(request.id)).toEqual([{ kind: 'request-received', recipient: 'homeowner' }])
  const kept = await app.db.selectFrom('request_photo').selectAll().where('id', '=', photo.id).execute()
  expect(kept).toMatchObject([
    { quote_request_id: request.id, place: 1, words: 'the porch', token_hash: null },
  ])
  const page = await app.browser().get(own)
  expect(page.text).toContain('/call-off')
  expect(page.text).toContain(`/photos/${photo.id}`)
  expect((await owner.get('/queue')).text).toContain(number)
  expect((await owner.get('/queue')).text).not.toContain('held as maybe junk')
  const history = await app.db
    .selectFrom('history')
    .select('verb')
    .where('quote_request_id', '=', request.id)
    .orderBy('id')
    .execute()
  expect(history.map(({ verb }) => verb)).toEqual(['sent', 'marked as real'])
  // Said to be junk afterwards on a page that is behind: it stays.
  const late = await owner.post(`/queue/maybe-junk/${number}/junk`)
  expect(late.status).toBe(303)
  expect((await requestOf(number))?.stage).toBe('new')
})

test('without beds it is moved as it was asked for', async () => {
  const { number } = await holdOne({ as: 'look', shownPostcode: CAROL.postcode, ...NO_BEDS })
  await owner.post(`/queue/maybe-junk/${number}/real`)
  const request = (await requestOf(number))!
  expect(request).toMatchObject({ sent_as: 'look', understood: null })
  expect(
    await app.db.selectFrom('ballpark').where('quote_request_id', '=', request.id).selectAll().execute(),
  ).toEqual([])
})

test('the range that was shown is the range it has, whatever the rates are by then', async () => {
  const { number, ballpark, rate_table_id } = await holdOne()
  await owner.post(`/queue/maybe-junk/${number}/real`)
  const { id } = (await requestOf(number))!
  const kept = await app.db.selectFrom('ballpark').selectAll().where('quote_request_id', '=', id).execute()
  expect(kept).toMatchObject([{ result: ballpark, rate_table_id }])
})

test('said to be junk it is out of sight and counted, may still turn out real, and goes after 30 days with its photos', async () => {
  const { number, own } = await holdOne({ 'photos.0.kept': await holdPast(app) })
  const { number: other } = await holdOne({ name: 'Mallory' })
  await owner.post(`/queue/maybe-junk/${number}/junk`)
  await owner.post(`/queue/maybe-junk/${number}/junk`)
  const list = (await owner.get('/queue/maybe-junk')).text
  expect(list).not.toContain('Carol')
  expect(list).toContain('1 noted as junk')
  expect((await owner.get('/queue')).text).toContain('1 held as maybe junk')
  expect((await owner.get('/queue/maybe-junk?show=junk')).text).toContain(number)
  const look = { db: app.db } as Parameters<typeof checkJunk>[0]
  expect((await checkJunk(look)).says).toBe('1 held as maybe junk, 1 noted as junk.')
  await sweepMaybeJunk(app.db, Temporal.Instant.from(CAME).add({ hours: 30 * 24 - 1 }))
  expect((await app.browser().get(own)).status).toBe(200)
  await owner
    .post('/queue/maybe-junk/all')
    .type('form')
    .send({ numbers: `${other} ${number} 26-9999 x` })
  expect((await checkJunk(look)).says).toBe('0 held as maybe junk, 2 noted as junk.')
  expect((await owner.post(`/queue/maybe-junk/${other}/real`)).status).toBe(303)
  expect((await requestOf(other))?.stage).toBe('new')
  await sweepMaybeJunk(app.db, Temporal.Instant.from(CAME).add({ hours: 30 * 24 }))
  expect((await app.browser().get(own)).status).toBe(404)
  expect(
    await app.db.selectFrom('request_photo').selectAll().where('maybe_junk_id', 'is not', null).execute(),
  ).toEqual([])
  const gone = await owner.post(`/queue/maybe-junk/${number}/real`)
  expect(gone.status).toBe(303)
  expect((await owner.post(`/queue/maybe-junk/${number}/junk`)).status).toBe(404)
})

test('a note and another phone from the own page come along, and nobody is told until then', async () => {
  const { own, number, id } = await holdOne()
  const mails = await rows('outbox')
  const post = (path: string, fields: object) =>
    app.browser().post(`${own}/${path}`).type('form').send(fields)
  for (const note of ['The blue house.', 'The blue house.', 'Ring twice.'])
    expect((await post('note', { note })).status).toBe(303)
  expect((await post('note', { note: ' ' })).status).toBe(422)
  expect((await post('phone', { phone: '512 555 0188' })).status).toBe(303)
  expect(await rows('outbox')).toBe(mails)
  const row = await app.db
    .selectFrom('maybe_junk')
    .select('sending')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  expect(row.sending).toMatchObject({
    note: `${JUNK.note}\n\nThe blue house.\n\nRing twice.`,
    phone: '512 555 0188',
  })
  await owner.post(`/queue/maybe-junk/${number}/real`)
  expect((await requestOf(number))?.note).toMatch(/Ring twice\.$/)
  // Moved just before a note came: it is told, and the note belongs there.
  expect(await changeMaybeJunk(app.db, id, { note: 'Late.' })).toBe(false)
})

test('of more than are kept the oldest go, and those first that are junk', async () => {
  const numbers: string[] = []
  for (const name of ['Ann', 'Ben', 'Cid', 'Dora']) numbers.push((await holdOne({ name })).number)
  await owner.post(`/queue/maybe-junk/${numbers[2]}/junk`)
  const left = async (most: number) => {
    await app.db.transaction().execute(trx => deleteBeyond(trx, most))
    const kept = await app.db.selectFrom('maybe_junk').select('number').orderBy('id').execute()
    return kept.map(({ number }) => numbers.indexOf(number))
  }
  expect(await left(4)).toEqual([0, 1, 2, 3])
  expect(await left(3)).toEqual([0, 1, 3])
  expect(await left(2)).toEqual([1, 3])
})

test('photos of maybe junk take a tenth of the room at most: of more the oldest go', async () => {
  const { photos_megabytes } = await app.db
    .selectFrom('business')
    .select('photos_megabytes')
    .executeTakeFirstOrThrow()
  const { id: first } = await holdOne({ 'photos.0.kept': await holdPast(app) })
  const tenth = (photos_megabytes * 1e6) / 10
  await app.db.updateTable('request_photo').set({ bytes: tenth }).where('maybe_junk_id', '=', first).execute()
  const { id: second } = await holdOne({ name: 'Mallory', 'photos.0.kept': await holdPast(app) })
  const left = await app.db
    .selectFrom('request_photo')
    .select('maybe_junk_id')
    .where('maybe_junk_id', 'is not', null)
    .execute()
  expect(left).toEqual([{ maybe_junk_id: second }])
})

test('with another key its page has another link, and the old one opens nothing', async () => {
  const { own, number } = await holdOne()
  const first = app.deps.secretKey
  await replaceKey(app.db, 'another key for tests, 32 characters or more')
  expect((await app.browser().get(own)).status).toBe(404)
  await replaceKey(app.db, first)
  expect((await app.browser().get(own)).text).toContain(number)
})
