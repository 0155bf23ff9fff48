import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { backupFolder } from '../backup/files.ts'
import { everyRow } from '../backup/filled.ts'
import { typed } from '../command/typed/typing.ts'
import { testApp } from '../helpers/app.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { openBusiness } from '../helpers/people.ts'
import { givePhoto } from '../helpers/photos.ts'
import { ownFolder } from '../helpers/process.ts'
import { sendRequest } from '../helpers/requests.ts'
import { testDatabase } from '../helpers/store.ts'

const LONG = { timeout: 120_000 }

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
  const folder = await folderWithStore()
  expect(await typed(`restore ${file}`, { DATA_DIR: folder })).toMatchObject({ code: 0 })
  writeFileSync(join(folder, 'secret-key'), 'the key of the test, of 32 characters\n', { mode: 0o600 })
  return folder
}

test(
  'all goes into another store and back, and what is used, filled or the same is refused',
  LONG,
  async () => {
    const [from, between, back] = [await filledFolder(), await folderWithStore(), await folderWithStore()]
    const databaseUrl = inject('storeKind') === 'postgres' ? await testDatabase() : undefined
    const there = databaseUrl
      ? await typed('move', { DATA_DIR: from, TO_DATABASE_URL: databaseUrl })
      : await typed(`move ${between}`, { DATA_DIR: from })
    expect(there).toMatchObject({ code: 0, aside: '' })
    expect(await rowsIn({ dataDir: between, ...(databaseUrl ? { databaseUrl } : {}) })).toEqual(rows)
    // The clock stands still, and a backup of the same moment is not overwritten.
    rmSync(join(from, 'backups'), { recursive: true })
    const set: Record<string, string> = databaseUrl
      ? { DATA_DIR: from, DATABASE_URL: databaseUrl }
      : { DATA_DIR: between }
    expect(await typed(`move ${back}`, set)).toMatchObject({ code: 0, aside: '' })
    expect(await rowsIn({ dataDir: back })).toEqual(rows)
    expect(readFileSync(join(back, 'secret-key'))).toEqual(readFileSync(join(from, 'secret-key')))

    const filled = await typed(`move ${back}`, { DATA_DIR: from })
    expect(filled).toMatchObject({ code: 1, aside: expect.stringContaining('isn’t empty') })
    const same = await typed(`move ${from}`, { DATA_DIR: from })
    expect(same).toMatchObject({ code: 1, aside: 'That is the store it is in already.\n' })
    expect(await typed('move', { DATA_DIR: from })).toMatchObject({ code: 2 })
    const empty = await ownFolder()
    const store = await openStore({ dataDir: from })
    const used = await typed(`move ${empty}`, { DATA_DIR: from }).finally(store.close)
    expect(used).toMatchObject({ code: 1, aside: expect.stringContaining('Stop it first') })
    expect(existsSync(join(empty, 'store'))).toBe(false)
    expect(await rowsIn({ dataDir: from })).toEqual(rows)
  },
)
