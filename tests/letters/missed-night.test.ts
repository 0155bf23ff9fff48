import { afterAll, beforeAll, expect, test } from 'vitest'
import { type BackgroundWork, NIGHTLY, startBackgroundWork } from '../../src/letters/jobs.ts'
import { takeUpWork } from '../../src/letters/worker.ts'
import { messages } from '../../src/messages.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { until } from '../helpers/until.ts'

const GRACE = 5_000

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  // Half past three is hours away, whenever this runs.
  const time_zone = Temporal.Now.zonedDateTimeISO('UTC').hour < 12 ? 'Asia/Tokyo' : 'UTC'
  await app.db.updateTable('business').set({ time_zone }).execute()
})
afterAll(() => app.close())

test('a night that nobody was running in is made up for at the next start, once, by however many processes', {
  timeout: 90_000,
}, async () => {
  let nights = 0
  const lastly = async () => {
    nights += 1
  }
  const start = async (): Promise<BackgroundWork> => {
    const work = await startBackgroundWork(app.store)
    await takeUpWork(work, { ...app.deps, messages }, app.store, lastly)
    return work
  }
  const looked = async () => {
    const { rows } = await app.store.executeSql(
      `select cron_on > now() - interval '1 hour' as lately from pgboss.version`,
    )
    return (rows[0] as { lately: boolean | null }).lately === true
  }
  const first = await start()
  await until(looked, { within: 15_000, what: 'a look at what is due' })
  await first.stop(GRACE)
  expect(nights).toBe(0)
  // As if it had run for a month, and been off for the last three days.
  await app.store.executeSql(`update pgboss.schedule set created_on = now() - interval '30 days'`)
  await app.store.executeSql(`update pgboss.version set cron_on = now() - interval '3 days'`)
  const works = [await start(), await start()]
  try {
    const completed = async () =>
      (await works[0]!.boss.findJobs(NIGHTLY)).some(({ state }) => state === 'completed')
    await until(completed, { within: 30_000, what: 'the nights to be made up for' })
    expect(nights).toBe(1)
    expect(await works[0]!.boss.findJobs(NIGHTLY)).toHaveLength(1)
  } finally {
    await Promise.all(works.map(work => work.stop(GRACE)))
  }
  const again = await start()
  await until(looked, { within: 15_000, what: 'a look at what is due' })
  await again.stop(GRACE)
  expect(nights).toBe(1)
})
