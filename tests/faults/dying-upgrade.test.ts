import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { migrations } from '../../migrations/list.ts'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreAsItWas } from '../../src/backup/restore.ts'
import { findMigrations } from '../../src/db/migrate.ts'
import { openStore, type StoreOptions } from '../../src/db/open.ts'
import { EARLIER, earlierStore } from '../earlier/stores.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { ownFolder, startBedwright } from '../helpers/process.ts'
import type { Dying } from './dying-upgrade.ts'

const { path, told, read } = earlierStore(EARLIER.at(-1)!)
const NAMES = Object.keys(migrations)

/** A store as that earlier version left it. */
async function leave(options: StoreOptions): Promise<string[]> {
  const store = await openStore(options)
  try {
    const backup = await checkBackup(path)
    await store.db.transaction().execute(trx => restoreAsItWas(trx, backup))
    return await findMigrations(store.db)
  } finally {
    await store.close()
  }
}

async function die(dying: Dying): Promise<void> {
  const script = join(import.meta.dirname, 'dying-upgrade.ts')
  const child = spawn(process.execPath, [script, JSON.stringify(dying)], { stdio: 'inherit' })
  expect(await once(child, 'exit')).toEqual([null, 'SIGKILL'])
}

async function killTwice(options: StoreOptions): Promise<void> {
  const had = await leave(options)
  expect(had.length).toBeLessThan(NAMES.length - 2)
  await die({ options, dies: NAMES[had.length + 1]!, when: 'before' })
  await die({ options, dies: NAMES.at(-1)!, when: 'after' })
  const store = await openStore(options)
  expect(await findMigrations(store.db).finally(store.close)).toEqual(had)
}

async function expectAll(options: StoreOptions): Promise<void> {
  const store = await openStore(options)
  try {
    expect(await findMigrations(store.db)).toEqual(NAMES)
    const { rows } = await store.executeSql('select number from quote_request order by number')
    expect(rows).toEqual(
      read()
        .tables.quote_request!.map(({ number }) => ({ number }))
        .sort((a, b) => (a.number! < b.number! ? -1 : 1)),
    )
  } finally {
    await store.close()
  }
}

test('an earlier embedded store whose upgrade is killed twice is saved as it was, and goes on at the start', async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rmSync(dataDir, { recursive: true, force: true }))
  await killTwice({ dataDir })
  writeFileSync(join(dataDir, 'secret-key'), told.secretKey, { mode: 0o600 })
  const bedwright = startBedwright({ DATA_DIR: dataDir })
  const link = await fetch(`${await bedwright.address()}${told.links[0]}`)
  expect(link.status).toBe(200)
  const [saved, ...others] = readdirSync(join(dataDir, 'backups'))
  expect([saved, others]).toEqual([expect.stringMatching(/^before-update-/), []])
  const { head, end } = await checkBackup(join(dataDir, 'backups', saved!))
  expect(head.migrations).toEqual(read().head.migrations)
  expect(end.rows.quote_request).toBe(read().tables.quote_request!.length)
  bedwright.child.kill('SIGTERM')
  await bedwright.ended()
  await expectAll({ dataDir })
})

test('an earlier store on PostgreSQL whose upgrade is killed twice goes on, by two that start at once', async () => {
  const server = await startServer()
  onTestFinished(server.stop)
  const options = { dataDir: '', databaseUrl: server.url }
  await killTwice(options)
  const started = await Promise.all(
    [1, 2].map(async () => {
      const environment = {
        DATA_DIR: await ownFolder(),
        DATABASE_URL: server.url,
        SECRET_KEY: told.secretKey,
      }
      return startBedwright(environment)
    }),
  )
  const statuses = started.map(async one => (await fetch(`${await one.address()}${told.links[0]}`)).status)
  expect(await Promise.all(statuses)).toEqual([200, 200])
  await expectAll(options)
})
