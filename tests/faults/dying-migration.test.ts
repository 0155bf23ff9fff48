import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { migrate } from '../../src/db/migrate.ts'
import { openStore, type StoreOptions } from '../../src/db/open.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { migrations } from './dying-migration.ts'

test('a migration killed half-way is run in full at the next start, on the embedded store', async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rm(dataDir, { recursive: true }))
  await killAndResume({ dataDir })
})

test('a migration killed half-way is run in full at the next start, on PostgreSQL', async () => {
  const server = await startServer()
  onTestFinished(server.stop)
  await killAndResume({ dataDir: '', databaseUrl: server.url })
})

async function killAndResume(options: StoreOptions): Promise<void> {
  const script = join(import.meta.dirname, 'dying-migration.ts')
  const child = spawn(process.execPath, [script, JSON.stringify(options)], { stdio: 'inherit' })
  expect(await once(child, 'exit')).toEqual([null, 'SIGKILL'])

  const store = await openStore(options)
  onTestFinished(store.close)
  expect(await migrate(store, migrations)).toEqual(Object.keys(migrations))
  expect((await store.executeSql('select tool, bought from shed')).rows).toEqual([
    { tool: 'spade', bought: null },
  ])
}
