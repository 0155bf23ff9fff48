import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { sweepPhotos } from '../../src/requests/photos/sweep.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday, closedRequest } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { photo } from '../helpers/photos.ts'

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
