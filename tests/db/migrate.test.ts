import { sql } from 'kysely'
import type { Migration } from 'kysely/migration'
import { expect, inject, onTestFinished, test } from 'vitest'
import { migrations } from '../../migrations/list.ts'
import { migrate, openMigratedStore, StoreIsNewer } from '../../src/db/migrate.ts'
import { openStore, type Store } from '../../src/db/open.ts'
import { explain } from '../../src/explain.ts'
import { testDatabase, unmigratedStore } from '../helpers/store.ts'

const first: Migration = { up: db => db.schema.createTable('shed').addColumn('id', 'integer').execute() }
const second: Migration = { up: db => db.schema.createTable('barn').addColumn('id', 'integer').execute() }

async function emptyStore(): Promise<Store> {
  const store = await unmigratedStore()
  onTestFinished(store.close)
  return store
}

async function tables(store: Store): Promise<string[]> {
  const found = await sql<{ name: string }>`
    select table_name as name from information_schema.tables
    where table_schema = 'public' and table_name not like 'kysely%' order by 1`.execute(store.db)
  return found.rows.map(row => row.name)
}

test('an empty store gets everything, a store that has some gets the rest, and one that has all nothing', async () => {
  const store = await emptyStore()
  expect(await migrate(store, { '2026-01-01-1-first': first })).toEqual(['2026-01-01-1-first'])
  const both = { '2026-01-01-1-first': first, '2026-01-02-1-second': second }
  expect(await migrate(store, both)).toEqual(['2026-01-02-1-second'])
  expect(await migrate(store, both)).toEqual([])
  expect(await tables(store)).toEqual(['barn', 'shed'])
})

test('a migration that fails leaves nothing behind, and runs in full once it is mended', async () => {
  const store = await emptyStore()
  const broken: Migration = {
    up: async db => {
      await second.up(db)
      await sql`select 1 / 0`.execute(db)
    },
  }
  const list = { '2026-01-01-1-first': first, '2026-01-02-1-second': broken }
  await expect(migrate(store, list)).rejects.toThrow('division by zero')
  expect(await tables(store)).toEqual([])
  expect(await migrate(store, { ...list, '2026-01-02-1-second': second })).toHaveLength(2)
})

test('a store from a newer release is refused in one line and left as it is', async () => {
  const store = await emptyStore()
  await migrate(store, { '2026-01-01-1-first': first, '2026-01-02-1-second': second })
  const refusal = await migrate(store, { '2026-01-01-1-first': first }).catch(error => error)
  expect(refusal).toBeInstanceOf(StoreIsNewer)
  expect(refusal.message).toMatch(/newer Bedwright .*"2026-01-02-1-second".*\. Start that version/)
  expect(refusal.message).not.toContain('\n')
  expect(await tables(store)).toEqual(['barn', 'shed'])
})

test('the real list is dated, in order, and runs on an empty store', async () => {
  const names = Object.keys(migrations)
  expect(names.filter(name => !/^\d{4}-\d{2}-\d{2}-\d{1,2}-[a-z-]+$/.test(name))).toEqual([])
  expect(names).toEqual([...names].sort())
  expect(await migrate(await emptyStore())).toEqual(names)
})

if (inject('storeKind') === 'postgres') {
  test('three that start at once migrate once, and all start', async () => {
    const databaseUrl = await testDatabase()
    const stores = await Promise.all([1, 2, 3].map(() => openMigratedStore({ dataDir: '', databaseUrl })))
    for (const store of stores) onTestFinished(store.close)
    const { rows } = await sql<{ name: string }>`select name from kysely_migration`.execute(stores[0]!.db)
    expect(rows.map(row => row.name)).toEqual(Object.keys(migrations))
  })

  test('whoever may not add the extension for searching is told who may, and goes on once it is there', async () => {
    const url = new URL(await testDatabase())
    const admin = await openStore({ dataDir: '', databaseUrl: url.href })
    const role = `gardener_${url.pathname.slice(-16)}`
    onTestFinished(async () => {
      await admin.executeSql(`drop owned by ${role} cascade; drop role ${role}`)
      await admin.close()
    })
    await admin.executeSql(
      `create role ${role} login password 'rake'; grant create on schema public to ${role}`,
    )
    Object.assign(url, { username: role, password: 'rake' })
    const options = { dataDir: '', databaseUrl: url.href }
    const refused = await openMigratedStore(options).catch((error: unknown) => error)
    expect(explain(refused, 'The start')).toContain('create extension pg_trgm')
    await admin.executeSql('create extension pg_trgm')
    await (await openMigratedStore(options)).close()
  })
}
