import { readdirSync } from 'node:fs'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { openStore, vacuum } from '../../src/db/open.ts'
import { folderWithStore } from '../helpers/made-store.ts'

test('what the embedded store keeps as its log doesn’t grow from night to night', async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rm(dataDir, { recursive: true }))
  const store = await openStore({ dataDir })
  onTestFinished(store.close)
  await store.executeSql('create table crate (id integer)')
  const segments = () =>
    readdirSync(join(dataDir, 'store/pg_wal')).filter(name => /^[0-9A-F]{24}$/.test(name)).length
  const counts: number[] = []
  for (let night = 0; night < 8; night++) {
    // A segment of 16 MB is begun, as after a day with so much of it.
    await store.executeSql('insert into crate values ($1)', [night])
    await store.executeSql('select pg_switch_wal()')
    await vacuum(store)
    counts.push(segments())
  }
  expect(counts.at(-1)).toBeLessThanOrEqual(4)
})
