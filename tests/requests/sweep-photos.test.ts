import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Stage } from '../../src/db/schema/stages.ts'
import { sweepPhotos } from '../../src/requests/photos/sweep.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { givePhoto, holdPast } from '../helpers/photos.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

/** A request with a photo that is at a stage since a day; gives the photo's id. */
async function photoAt(stage: Stage, since: string): Promise<number> {
  const { id } = await sendRequest(app)
  const photo = await givePhoto(app, id)
  await app.db.updateTable('quote_request').set({ stage, stage_at: since }).where('id', '=', id).execute()
  return photo
}

test('photos go as many months after a request ended as the owner chose, and never while there is work ahead', async () => {
  await app.db.updateTable('business').set({ photos_months: 3 }).execute()
  const [before, after] = ['2026-01-14T18:00:00Z', '2026-01-16T18:00:00Z']
  const gone: number[] = []
  const kept: number[] = []
  for (const stage of ['paid', 'called off', 'not taken', "can't do", 'lapsed'] as const) {
    gone.push(await photoAt(stage, before))
    kept.push(await photoAt(stage, after))
  }
  for (const stage of ['new', 'quoted', 'booked', 'done'] as const) kept.push(await photoAt(stage, before))
  const isLeft = async () =>
    (await app.db.selectFrom('request_photo').select('id').orderBy('id').execute()).map(({ id }) => id)
  await sweepPhotos(app.db, Temporal.Instant.from('2026-04-15T18:00:00Z'))
  expect(await isLeft()).toEqual(kept.sort((a, b) => a - b))
  expect(gone).toHaveLength(5)
})

test('what is held for half a day is swept, and what is younger stays', async () => {
  app.setClock('2026-03-02T06:00:00Z')
  await holdPast(app)
  app.setClock('2026-03-02T12:00:00Z')
  await holdPast(app)
  await sweepPhotos(app.db, Temporal.Instant.from('2026-03-02T18:00:00Z'))
  const left = await app.db
    .selectFrom('request_photo')
    .select('made_at')
    .where('quote_request_id', 'is', null)
    .execute()
  expect(left.map(({ made_at }) => Temporal.Instant.from(made_at).toString())).toEqual([
    '2026-03-02T12:00:00Z',
  ])
})
