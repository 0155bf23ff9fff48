import { rm } from 'node:fs/promises'
import { expect, onTestFinished, test } from 'vitest'
import { openStore, type StoreOptions } from '../../src/db/open.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { until } from '../helpers/until.ts'
import { type Ack, expectNothingLost, ROUNDS, startLoad } from './load.ts'

const TIME = { timeout: 60_000 + ROUNDS * 20_000 }

test('kill -9 in the middle of writing loses nothing acknowledged on the embedded store', TIME, async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rm(dataDir, { recursive: true }))
  await killAgainAndAgain({ dataDir })
})

test('kill -9 in the middle of writing loses nothing acknowledged on PostgreSQL', TIME, async () => {
  const server = await startServer()
  onTestFinished(server.stop)
  await killAgainAndAgain({ dataDir: '', databaseUrl: server.url })
})

async function killAgainAndAgain(options: StoreOptions): Promise<void> {
  const acks: Ack[] = []
  for (let round = 0; round < ROUNDS; round++) {
    const load = await startLoad({ ...options, workers: 12, first: 1 + round * 1_000_000 })
    const enough = 20 + Math.floor(Math.random() * 200)
    await until(() => load.acks.length >= enough, { within: 20_000, what: `${enough} acknowledged entries` })
    await load.kill()
    acks.push(...load.acks)

    const start = performance.now()
    const store = await openStore(options)
    await expectNothingLost(store, acks)
    expect(performance.now() - start).toBeLessThan(15_000)
    await store.close()
    expect(load.uncaught).toEqual([])
  }
}
