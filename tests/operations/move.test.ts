import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { backupFolder } from '../backup/files.ts'
import { everyRow } from '../backup/filled.ts'
import { typed } from '../command/typed/typing.ts'
import { testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { givePhoto } from '../helpers/photos.ts'
import { ownFolder } from '../helpers/process.ts'
import { sendRequest } from '../helpers/requests.ts'
import { testDatabase } from '../helpers/store.ts'

const files = backupFolder()
let file: string
let rows: Record<string, string[]>

beforeAll(async () => {
  const app = await testApp()
  await openBusiness(app)
  await givePhoto(app, (await sendRequest(app)).id, 'by the gate')
  rows = await everyRow(app.store)
  file = await files.backUp(app.store)
  await app.close()
})
afterAll(files.remove)

async function rowsIn(options: { dataDir: string; databaseUrl?: string }) {
  const store = await openStore(options)
  return everyRow(store).finally(store.close)
}

/** A folder with the embedded store of the business, and with a key. */
async function filledFolder(): Promise<string> {
  const folder = await ownFolder()
  expect(await typed(`restore ${file}`, { DATA_DIR: folder })).toMatchObject({ code: 0 })
  writeFileSync(join(folder, 'secret-key'), 'the key of the test, of 32 characters\n', { mode: 0o600 })
  return folder
}

test('all rows and the key go from a folder into another store, and back', { timeout: 120_000 }, async () => {
  const [from, back] = [await filledFolder(), await ownFolder()]
  const databaseUrl = inject('storeKind') === 'postgres' ? await testDatabase() : undefined
  const between = await ownFolder()
  const there = databaseUrl
    ? await typed('move', { DATA_DIR: from, TO_DATABASE_URL: databaseUrl })
    : await typed(`move ${between}`, { DATA_DIR: from })
  expect(there).toMatchObject({ code: 0, aside: '' })
  expect(await rowsIn({ dataDir: between, ...(databaseUrl ? { databaseUrl } : {}) })).toEqual(rows)
  const set: Record<string, string> = databaseUrl
    ? { DATA_DIR: from, DATABASE_URL: databaseUrl }
    : { DATA_DIR: between }
  expect(await typed(`move ${back}`, set)).toMatchObject({ code: 0, aside: '' })
  expect(await rowsIn({ dataDir: back })).toEqual(rows)
  expect(readFileSync(join(back, 'secret-key'))).toEqual(readFileSync(join(from, 'secret-key')))
  expect(await rowsIn({ dataDir: from })).toEqual(rows)
})

test('what is used, filled already or the same is refused, and stays', { timeout: 120_000 }, async () => {
  const folder = await filledFolder()
  const other = await filledFolder()
  const filled = await typed(`move ${other}`, { DATA_DIR: folder })
  expect(filled).toMatchObject({ code: 1, aside: expect.stringContaining('isn’t empty') })
  const same = await typed(`move ${folder}`, { DATA_DIR: folder })
  expect(same).toMatchObject({ code: 1, aside: 'That is the store it is in already.\n' })
  expect(await typed('move', { DATA_DIR: folder })).toMatchObject({ code: 2 })
  const store = await openStore({ dataDir: folder })
  const empty = await ownFolder()
  const used = await typed(`move ${empty}`, { DATA_DIR: folder }).finally(store.close)
  expect(used).toMatchObject({ code: 1, aside: expect.stringContaining('Stop it first') })
  expect(existsSync(join(empty, 'store'))).toBe(false)
  expect(await rowsIn({ dataDir: other })).toEqual(rows)
})
