import { createHash } from 'node:crypto'
import { readFileSync, rmSync } from 'node:fs'
import { gunzipSync } from 'node:zlib'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, inject, onTestFinished, test } from 'vitest'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreBackup } from '../../src/backup/restore.ts'
import { bookDay } from '../../src/bookings/booking.ts'
import { openStore, type Store } from '../../src/db/open.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest } from '../helpers/bookings.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { ALICE, signedIn } from '../helpers/people.ts'
import { backupFolder } from './files.ts'
import { everyRow, fill } from './filled.ts'

const LONG = { timeout: 120_000 }

let app: TestApp
let filled: Awaited<ReturnType<typeof fill>>
let before: Record<string, string[]>
const files = backupFolder()
let file: string

beforeAll(async () => {
  app = await testApp()
  filled = await fill(app)
  before = await everyRow(app.store)
  file = await files.backUp(app.store)
})

afterAll(async () => {
  files.remove()
  await app.close()
})

const restoreInto = async (store: Store, from = file) =>
  restoreBackup(store, await checkBackup(from), Temporal.Instant.from('2026-03-02T16:00:00Z'))

test('there is something in every table, so that none can be left out unnoticed', () => {
  expect(Object.keys(before).length).toBeGreaterThan(20)
  expect(Object.entries(before).flatMap(([table, rows]) => (rows.length === 0 ? [table] : []))).toEqual([])
})

test('a store of the same kind has everything, and goes on as if it had always been that', LONG, async () => {
  const other = await testApp()
  onTestFinished(other.close)
  const asMigrated = await rulesOf(other.store)
  expect(asMigrated.length).toBeGreaterThan(100)
  const { rows } = await restoreInto(other.store)
  expect(await everyRow(other.store)).toEqual(before)
  expect(await rulesOf(other.store)).toEqual(asMigrated)
  expect(rows).toEqual(Object.fromEntries(Object.entries(before).map(([table, all]) => [table, all.length])))

  for (const path of [filled.ownPath, filled.bookingPath, filled.bookedPath])
    expect({ path, status: (await other.browser().get(path)).status }).toEqual({ path, status: 200 })
  expect((await (await signedIn(other, ALICE)).get('/queue')).status).toBe(200)
  const photo = await other.browser().get(`/finishes/photos/${filled.photo}`).buffer(true)
  expect(createHash('sha256').update(photo.body).digest('hex')).toBe(filled.photo)

  // Its numbers go on, and its triggers act and refuse.
  const { id } = await acceptedRequest(other, '2')
  await bookDay(other.deps, id, '2026-03-05')
  const day = other.db.selectFrom('work_day').select('taken_hours').where('day', '=', '2026-03-05')
  expect(await day.executeTakeFirst()).toEqual({ taken_hours: '2.00' })
  await expect(sql`update rate_table set version = 7`.execute(other.db)).rejects.toThrow(
    'kept as they were made',
  )
  await expect(sql`update quote_line set amount = 0`.execute(other.db)).rejects.toThrow(
    'kept as they were made',
  )
})

test('the key itself is not in it', () => {
  const text = gunzipSync(readFileSync(file)).toString()
  expect(text).toContain('["table","key_check"]')
  expect(text).not.toContain(app.deps.secretKey)
})

if (inject('storeKind') === 'postgres') {
  test('from PostgreSQL to the embedded store and back nothing changes', LONG, async () => {
    const dataDir = await folderWithStore()
    onTestFinished(() => rmSync(dataDir, { recursive: true }))
    const embedded = await openStore({ dataDir })
    onTestFinished(embedded.close)
    await restoreInto(embedded)
    expect(await everyRow(embedded)).toEqual(before)

    const back = await testApp()
    onTestFinished(back.close)
    await restoreInto(back.store, await files.backUp(embedded))
    expect(await everyRow(back.store)).toEqual(before)
    expect((await back.browser().get(filled.bookedPath)).status).toBe(200)
  })
}

/** Constraints, triggers and functions of the tables, and whether they are in force. */
async function rulesOf(store: Store): Promise<unknown[]> {
  const { rows } = await store.executeSql(`
    select concat_ws(' ', conrelid::regclass, conname, pg_get_constraintdef(oid), convalidated) as rule
      from pg_constraint where connamespace = 'public'::regnamespace
    union all select concat_ws(' ', tgrelid::regclass, tgname, tgenabled)
      from pg_trigger join pg_class on pg_class.oid = tgrelid
      where relnamespace = 'public'::regnamespace and not tgisinternal
    union all select oid::regprocedure::text from pg_proc where pronamespace = 'public'::regnamespace
    order by 1`)
  return rows
}
