import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeBill } from '../../src/billing/make-bill.ts'
import { MOST_JOB_PHOTOS } from '../../src/closing/troubles.ts'
import { bytesTaken } from '../../src/requests/photos/queries.ts'
import { sweepPhotos } from '../../src/requests/photos/sweep.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday, closedRequest } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { photo } from '../helpers/photos.ts'
import { halves } from '../photos/pictures.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

const rowsOf = (id: number) =>
  app.db.selectFrom('job_trouble').selectAll().where('quote_request_id', '=', id).orderBy('id').execute()

test('coming back for free stands on Days under its day until somebody says it’s done', async () => {
  const job = await closedRequest(app)
  const note = {
    kind: 'come back',
    words: 'Rake the mulch off the walk',
    day: '2026-03-04',
    key: randomUUID(),
  }
  const send = (fields: Record<string, string>) =>
    helper.post(`/days/jobs/${job.number}/trouble`).type('form').send(fields)
  expect((await send(note)).status).toBe(303)
  expect((await send(note)).status).toBe(303)
  const [row, ...more] = await rowsOf(job.id)
  expect(more).toEqual([])
  expect(row).toMatchObject({ kind: 'come back', day: '2026-03-04', done_at: null })
  const days = await helper.get('/days')
  expect(days.text).toContain('Coming back for free on Wednesday, March 4: Rake the mulch off the walk')
  expect((await owner.get(`/queue/${job.number}`)).text).toContain('Coming back for free on Wed, Mar 4')
  const end = () => helper.post(`/days/jobs/${job.number}/trouble/${row!.id}/done`).type('form').send({})
  await end()
  const [ended] = await rowsOf(job.id)
  expect(ended!.done_at).not.toBeNull()
  await end()
  expect(await rowsOf(job.id)).toEqual([ended])
  expect((await helper.get('/days')).text).not.toContain('Rake the mulch')

  const faulty = await send({ kind: 'come back', words: '', day: '2026-03-01', key: randomUUID() })
  expect(faulty.status).toBe(422)
  expect(faulty.text).toContain('That day has passed.')
  expect(faulty.text).toContain('Say what it is in a few words.')
})

test('damage is noted with a photo, made anew and kept once; photos of the work beside it', async () => {
  const job = await bookedToday(app)
  const bytes = await photo()
  const path = `/days/jobs/${job.number}`
  const damage = () =>
    helper
      .post(`${path}/trouble`)
      .field({ kind: 'damage', words: 'A sprinkler head', key: randomUUID() })
      .attach('troublePhoto', bytes, 'damage.jpg')
  expect((await damage()).status).toBe(303)
  const send = () => helper.post(`${path}/photos`).attach('photo.1', bytes, 'after.jpg')
  expect((await send()).status).toBe(303)
  const photos = await app.db
    .selectFrom('job_photo')
    .select('id')
    .where('quote_request_id', '=', job.id)
    .execute()
  expect(photos).toHaveLength(1)
  const small = await helper.get(`${path}/photos/${photos[0]!.id}/small`)
  expect(small.headers['content-type']).toBe('image/jpeg')
  const text = await helper.post(`${path}/photos`).attach('photo.0', Buffer.from('no picture'), 'a.jpg')
  expect(text.status).toBe(422)
  expect((await helper.post(`${path}/photos`).type('form').send({})).text).toContain('Choose a photo.')
  // Of a job that isn't over they stay, however long ago they were taken.
  await sweepPhotos(app.db, app.deps.now().add({ hours: 24 * 800 }))
  expect((await helper.get(`${path}/photos/${photos[0]!.id}`)).status).toBe(200)
  const other = await bookedToday(app)
  expect((await helper.get(`/days/jobs/${other.number}/photos/${photos[0]!.id}`)).status).toBe(404)
})

test('a photo is removed for good once it was asked, and those from before a bill stay while it stands', async () => {
  const job = await closedRequest(app)
  const path = `/days/jobs/${job.number}`
  const idsOf = async () =>
    (
      await app.db
        .selectFrom('job_photo')
        .select('id')
        .where('quote_request_id', '=', job.id)
        .orderBy('id')
        .execute()
    ).map(({ id }) => id)
  const add = async (bytes: Buffer) =>
    expect((await helper.post(`${path}/photos`).attach('photo.0', bytes, 'after.jpg')).status).toBe(303)
  await add(await photo())
  await add(await halves('#111111', '#222222', 40, 30).jpeg().toBuffer())
  const [first, second] = await idsOf()
  const shown = (await helper.get(`${path}/close`)).text
  expect(shown).toContain('It’s gone for good.')
  for (const _ of [1, 2]) expect((await helper.post(`${path}/photos/${first}/remove`)).status).toBe(303)
  expect(await idsOf()).toEqual([second])
  expect((await helper.get(`${path}/photos/${first}`)).status).toBe(404)
  const verbs = await app.db
    .selectFrom('history')
    .select('verb')
    .where('quote_request_id', '=', job.id)
    .execute()
  expect(verbs.filter(({ verb }) => verb === 'photo removed')).toHaveLength(1)

  await makeBill(app.deps, 1, job.id, { before: 0, added: [], total: null })
  app.setClock(app.deps.now().add({ minutes: 5 }).toString())
  await add(await halves('#333333', '#444444', 40, 30).jpeg().toBuffer())
  const [, later] = await idsOf()
  const refused = await helper.post(`${path}/photos/${second}/remove`)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('the photos from before it stay')
  expect((await helper.post(`${path}/photos/${later}/remove`)).status).toBe(303)
  expect(await idsOf()).toEqual([second])
})

test('photos of work and of tickets count toward the room for all photos, and a job has so many at most', async () => {
  const job = await bookedToday(app)
  const before = (await bytesTaken(app.db)).all
  const send = async (n: number) =>
    helper
      .post(`/days/jobs/${job.number}/photos`)
      .attach('photo.0', await halves(`#${n}0000`, '#555555', 40, 30).jpeg().toBuffer(), 'after.jpg')
  expect((await send(10)).status).toBe(303)
  const { picture, small } = await app.db
    .selectFrom('job_photo')
    .select(['picture', 'small'])
    .where('quote_request_id', '=', job.id)
    .executeTakeFirstOrThrow()
  expect((await bytesTaken(app.db)).all - before).toBe(picture.length + small.length)

  // 10 MB, the least that a business has, are full with one photo of as much.
  await sql`update business set photos_megabytes = 10`.execute(app.db)
  await sql`
    insert into job_photo (quote_request_id, words, picture, small, small_width, small_height, digest, made_at, made_by)
    select quote_request_id, '', convert_to(repeat('x', 10000000), 'UTF8'), small, 4, 3, 'large', made_at, made_by
    from job_photo where quote_request_id = ${job.id}`.execute(app.db)
  const full = await send(50)
  expect([full.status, full.text.includes('There’s no room left for photos.')]).toEqual([422, true])
  const words = 'A broken sprinkler head by the walk'
  const damage = await helper
    .post(`/days/jobs/${job.number}/trouble`)
    .field({ kind: 'damage', words, key: randomUUID() })
    .attach('troublePhoto', await halves('#777777', '#888888', 40, 30).jpeg().toBuffer(), 'damage.jpg')
  expect([damage.status, damage.text.includes(words)]).toEqual([422, true])
  expect(await rowsOf(job.id)).toEqual([])
  // The same photo once more needs no room.
  expect((await send(10)).status).toBe(303)
  await sql`update business set photos_megabytes = 1000`.execute(app.db)
  await sql`delete from job_photo where digest = 'large'`.execute(app.db)
  await sql`
    insert into job_photo (quote_request_id, words, picture, small, small_width, small_height, digest, made_at, made_by)
    select quote_request_id, '', picture, small, 4, 3, 'copy ' || n, made_at, made_by
    from job_photo, generate_series(1, ${MOST_JOB_PHOTOS - 1}::int) as n where quote_request_id = ${job.id}`.execute(
    app.db,
  )
  const over = await send(90)
  expect([over.status, over.text.includes('A job can have 40 photos.')]).toEqual([422, true])
})
