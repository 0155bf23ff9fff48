import { expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { until } from '../helpers/until.ts'
import { expectNothingLost, type Load, ROUNDS, startLoad } from './load.ts'

const WORKERS = 12

test('immediate restarts of the database under load lose nothing, hang nothing and heal in 10 s', {
  timeout: 60_000 + ROUNDS * 30_000,
}, async () => {
  const server = await startServer()
  onTestFinished(server.stop)
  const options = { dataDir: '', databaseUrl: server.url }
  const load = await startLoad({ ...options, workers: WORKERS, first: 1 })
  onTestFinished(load.kill)

  await allWorking(load, 0)
  for (let round = 0; round < Math.max(ROUNDS, 3); round++) {
    await server.restart()
    await allWorking(load, load.acks.length)
  }

  expect(await load.stop()).toBe(0)
  expect(load.uncaught).toEqual([])
  expect([...load.acks, ...load.failures].filter(({ ms }) => ms > 10_000)).toEqual([])
  expect(load.failures.length).toBeGreaterThan(0)
  const store = await openStore(options)
  onTestFinished(store.close)
  await expectNothingLost(store, load.acks)
})

/** Waits until every worker has had several entries acknowledged after the first `since` of all. */
async function allWorking(load: Load, since: number): Promise<void> {
  const busy = () => {
    const each = Object.groupBy(load.acks.slice(since), ack => ack.worker)
    return Object.values(each).filter(acks => acks && acks.length >= 5).length === WORKERS
  }
  await until(busy, { within: 10_000, what: 'all workers to have entries acknowledged' })
}
