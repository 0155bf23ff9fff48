import { expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { startPair } from '../helpers/postgres-server.ts'
import { until } from '../helpers/until.ts'
import { expectNothingLost, startLoad } from './load.ts'

const WORKERS = 12

test('a server that is lost under load is followed by the second, with all that was acknowledged, within 10 s', {
  timeout: 120_000,
}, async () => {
  const pair = await startPair()
  onTestFinished(pair.stop)
  const { host } = new URL(pair.secondUrl)
  const options = { dataDir: '', databaseUrl: pair.url, databaseHosts: [host] }
  const load = await startLoad({ ...options, workers: WORKERS, first: 1 })
  onTestFinished(load.kill)
  await until(() => load.acks.length >= 100, { within: 20_000, what: 'entries to be acknowledged' })

  await pair.killFirst()
  const lost = performance.now()
  await pair.promoteSecond()
  const since = load.acks.length
  const back = () => new Set(load.acks.slice(since).map(({ worker }) => worker)).size === WORKERS
  await until(back, { within: 20_000, what: 'every worker to write to the second server' })
  expect(performance.now() - lost).toBeLessThan(10_000)

  expect(await load.stop()).toBe(0)
  expect(load.uncaught).toEqual([])
  expect(load.failures.length).toBeGreaterThan(0)
  const store = await openStore(options)
  onTestFinished(store.close)
  await expectNothingLost(store, load.acks)
})

test('a server that only follows is passed over for the one that takes writes', {
  timeout: 60_000,
}, async () => {
  const pair = await startPair()
  onTestFinished(pair.stop)
  const store = await openStore({
    dataDir: '',
    databaseUrl: pair.secondUrl,
    databaseHosts: [new URL(pair.url).host],
  })
  onTestFinished(store.close)
  await store.executeSql('create table taken (id integer); insert into taken values (1)')
  const { rows } = await store.executeSql('select pg_is_in_recovery() as follows, id from taken')
  expect(rows).toEqual([{ follows: false, id: 1 }])
})
