import fs from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, beforeEach, expect, onTestFinished, test, vi } from 'vitest'
import { PGLITE_VERSION, StoreUnusable } from '../../src/db/embedded.ts'
import { FolderInUse } from '../../src/db/lock.ts'
import { openStore, type Store } from '../../src/db/open.ts'
import { folderWithStore } from '../helpers/made-store.ts'

let made: string
let dataDir: string

beforeAll(async () => {
  made = await folderWithStore()
  return () => fs.rmSync(made, { recursive: true })
})

beforeEach(() => {
  dataDir = fs.mkdtempSync(join(tmpdir(), 'bedwright-folder-'))
  return () => fs.rmSync(dataDir, { recursive: true })
})

test('every acknowledged commit has been forced to the disk before it is acknowledged', async () => {
  const store = await opened()
  await store.executeSql('create table crate (id integer)')
  const forced = vi.spyOn(fs, 'fsyncSync')
  onTestFinished(() => forced.mockRestore())
  for (let id = 0; id < 50; id++) {
    const before = forced.mock.calls.length
    await store.executeSql('insert into crate values ($1)', [id])
    expect(forced.mock.calls.length).toBeGreaterThan(before)
  }
  const before = forced.mock.calls.length
  await store.executeSql('select id from crate')
  expect(forced.mock.calls.length).toBe(before)
})

test('the settings on which that rests are on', async () => {
  const store = await opened()
  const { rows } = await store.executeSql(
    `select name, setting from pg_settings where name in ('fsync', 'synchronous_commit', 'full_page_writes') order by 1`,
  )
  expect(rows).toEqual([
    { name: 'fsync', setting: 'on' },
    { name: 'full_page_writes', setting: 'on' },
    { name: 'synchronous_commit', setting: 'on' },
  ])
})

test('what was written is there when the folder is opened again', async () => {
  const first = await opened()
  await first.executeSql('create table crate as select 7 as id')
  await first.close()
  expect((await (await opened()).executeSql('select id from crate')).rows).toEqual([{ id: 7 }])
})

test('a second opening is refused while the first is open, and let in after it', async () => {
  const first = await opened()
  const refusal = await openStore({ dataDir }).catch(error => error)
  expect(refusal).toBeInstanceOf(FolderInUse)
  expect(refusal.message).toBe(`Another Bedwright is using the folder ${dataDir}. Stop it first.`)
  await first.close()
  expect((await opened()).kind).toBe('embedded')
})

test('a making that was cut short is begun again, and what is made is for its owner alone', async () => {
  fs.mkdirSync(join(dataDir, 'store.new'))
  fs.writeFileSync(join(dataDir, 'store.new', 'PG_VERSION'), '18\n')
  expect((await (await opening()).executeSql('select 1 as one')).rows).toEqual([{ one: 1 }])
  expect(fs.readdirSync(dataDir).sort()).toEqual(['in-use.lock', 'store'])
  expect(fs.statSync(join(dataDir, 'store')).mode & 0o077).toBe(0)
})

test.each([
  { what: 'no store at all', files: { 'notes.txt': 'mine' }, says: "isn't a Bedwright store" },
  { what: 'one of another PostgreSQL', files: { PG_VERSION: '17\n' }, says: 'was made by PostgreSQL 17' },
  { what: 'one of an unknown PGlite', files: { PG_VERSION: '18\n' }, says: 'was made by PGlite (unknown)' },
  {
    what: 'one of another PGlite',
    files: { PG_VERSION: '18\n', 'made-by': '0.5.2\n' },
    says: 'was made by PGlite 0.5.2',
  },
])('a folder with $what is refused in one line, untouched and unlocked', async ({ files, says }) => {
  fs.mkdirSync(join(dataDir, 'store'))
  for (const [name, content] of Object.entries(files)) fs.writeFileSync(join(dataDir, 'store', name), content)
  for (const _twice of [1, 2]) {
    const refusal = await openStore({ dataDir }).catch(error => error)
    expect(refusal).toBeInstanceOf(StoreUnusable)
    expect(refusal.message).toContain(says)
    expect(refusal.message).not.toContain('\n')
  }
  expect(fs.readdirSync(join(dataDir, 'store')).sort()).toEqual(Object.keys(files).sort())
})

test('the folder remembers what made it', async () => {
  await opened()
  expect(fs.readFileSync(join(dataDir, 'store', 'made-by'), 'utf8')).toBe(`${PGLITE_VERSION}\n`)
})

/** Opens a copy of a store made before: making one takes some seconds. */
async function opened(): Promise<Store> {
  if (!fs.existsSync(join(dataDir, 'store'))) fs.cpSync(made, dataDir, { recursive: true })
  return opening()
}

async function opening(): Promise<Store> {
  const store = await openStore({ dataDir })
  onTestFinished(store.close)
  return store
}
