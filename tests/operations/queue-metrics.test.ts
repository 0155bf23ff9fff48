import { sql } from 'kysely'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type BackgroundWork, startBackgroundWork } from '../../src/letters/jobs.ts'
import { measure } from '../../src/operations/metrics.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let work: BackgroundWork | undefined
beforeEach(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterEach(async () => {
  await work?.stop(1000)
  work = undefined
  await app.close()
})

/** The lines of a metric, by their label. */
async function read(name: string): Promise<Record<string, number>> {
  const text = await measure(app.store, app.deps.config, app.deps.now).text()
  const lines = text.matchAll(new RegExp(`^${name}\\{\\w+="([^"]+)"\\} (\\S+)$`, 'gm'))
  return Object.fromEntries([...lines].map(([, label, value]) => [label, Number(value)]))
}

async function twoWait(): Promise<void> {
  await sendRequest(app)
  app.setClock('2026-03-02T16:00:00Z')
  await sendRequest(app)
  app.setClock('2026-03-02T18:00:00Z')
}

const NO_STEP = { Measure: 0, Price: 0, 'Follow up': 0, Load: 0, Bill: 0, Collect: 0 }

test('requests are counted by the step that they wait under, and the oldest by how long', async () => {
  expect(await read('bedwright_queue_requests')).toEqual({ Call: 0, ...NO_STEP })
  expect(await read('bedwright_queue_oldest_seconds')).toEqual({ Call: 0, ...NO_STEP })
  await twoWait()
  expect(await read('bedwright_queue_requests')).toEqual({ Call: 2, ...NO_STEP })
  expect(await read('bedwright_queue_oldest_seconds')).toEqual({ Call: 3 * 3600, ...NO_STEP })
})

test('those on hold don’t wait, until their day', async () => {
  await twoWait()
  const hold = (day: string) => sql`update quote_request set on_hold_until = ${day}::date`.execute(app.db)
  await hold('2026-03-09')
  expect(await read('bedwright_queue_requests')).toEqual({ Call: 0, ...NO_STEP })
  await hold('2026-03-02')
  expect(await read('bedwright_queue_requests')).toEqual({ Call: 2, ...NO_STEP })
})

test('a price that nobody answered is to be followed up, and under Call once it is due', async () => {
  await twoWait()
  const at = app.deps.now().toString()
  await sql`update quote_request set stage = 'quoted', stage_at = ${at}`.execute(app.db)
  expect(await read('bedwright_queue_requests')).toEqual({ Call: 0, ...NO_STEP, 'Follow up': 2 })
  app.setClock('2026-03-12T18:00:00Z')
  expect(await read('bedwright_queue_requests')).toEqual({ Call: 2, ...NO_STEP })
  expect(await read('bedwright_queue_oldest_seconds')).toMatchObject({ Call: 10 * 24 * 3600 })
})

test('jobs that wait are counted by their queue, and the oldest by how long ago it was put on', async () => {
  expect(await read('bedwright_background_jobs')).toEqual({})
  work = await startBackgroundWork(app.store)
  const none = { 'send-mail': 0, 'send-text': 0, clock: 0, nightly: 0 }
  expect(await read('bedwright_background_jobs')).toEqual(none)
  expect(await read('bedwright_background_oldest_seconds')).toEqual(none)
  const { jobs } = work
  await app.db.transaction().execute(async trx => {
    await jobs.sendMail(trx, 'a')
    await jobs.sendMail(trx, 'b')
    await jobs.sendText(trx, 'c')
  })
  await sql`update pgboss.job set created_on = now() - interval '2 hours' where data ->> 'outboxId' = 'b'`.execute(
    app.db,
  )
  expect(await read('bedwright_background_jobs')).toEqual({ ...none, 'send-mail': 2, 'send-text': 1 })
  const ages = await read('bedwright_background_oldest_seconds')
  expect(ages['send-mail']).toBeGreaterThanOrEqual(7200)
  expect(ages['send-mail']).toBeLessThan(7500)
  expect(ages).toMatchObject({ clock: 0, nightly: 0 })
  await sql`update pgboss.job set state = 'completed' where name = 'send-mail'`.execute(app.db)
  expect(await read('bedwright_background_jobs')).toEqual({ ...none, 'send-text': 1 })
})
