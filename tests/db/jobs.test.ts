import { fromKysely, PgBoss } from 'pg-boss'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../src/db/open.ts'
import { testStore } from '../helpers/store.ts'
import { until } from '../helpers/until.ts'

let store: Store
let boss: PgBoss
const faults: unknown[] = []

beforeAll(async () => {
  store = await testStore()
  boss = new PgBoss({
    db: { executeSql: store.executeSql },
    ...(store.kind === 'embedded' ? { backend: 'pglite' as const } : {}),
  })
  boss.on('error', fault => faults.push(fault))
  await boss.start()
})

afterEach(() => {
  expect(faults.splice(0)).toEqual([])
})

afterAll(async () => {
  await boss.stop()
  await store.close()
})

test('a job sent inside a transaction is there once that commits, and is worked', async () => {
  await boss.createQueue('kept')
  await store.db.transaction().execute(async trx => {
    await boss.send('kept', { number: '26-0001' }, { db: fromKysely(trx) })
  })
  const worked: unknown[] = []
  await boss.work('kept', { pollingIntervalSeconds: 0.5 }, async jobs => {
    worked.push(...jobs.map(job => job.data))
  })
  await until(() => worked.length > 0, { what: 'the job to be worked' })
  await boss.offWork('kept')
  expect(worked).toEqual([{ number: '26-0001' }])
})

test('a job sent inside a transaction goes when that is rolled back', async () => {
  await boss.createQueue('dropped')
  const refused = store.db.transaction().execute(async trx => {
    await boss.send('dropped', { number: '26-0002' }, { db: fromKysely(trx) })
    throw new Error('refused')
  })
  await expect(refused).rejects.toThrow('refused')
  expect(await boss.fetch('dropped')).toEqual([])
  await boss.send('dropped', { number: '26-0003' })
  expect((await boss.fetch('dropped')).map(job => job.data)).toEqual([{ number: '26-0003' }])
})

test('a second start finds everything made', async () => {
  const second = new PgBoss({
    db: { executeSql: store.executeSql },
    ...(store.kind === 'embedded' ? { backend: 'pglite' as const } : {}),
  })
  await second.start()
  expect(await second.isInstalled()).toBe(true)
  await second.stop()
})
