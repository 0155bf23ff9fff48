import { appendFileSync, readFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreBackup } from '../../src/backup/restore.ts'
import { requireStoresKey } from '../../src/key-check.ts'
import { checkErased } from '../../src/operations/check-erased.ts'
import { eraseCustomer } from '../../src/privacy/erase.ts'
import { eraseAgain, tellErasedAgain } from '../../src/privacy/erase-again.ts'
import { erasedFile, noteErased } from '../../src/privacy/erased-file.ts'
import { backupFolder } from '../backup/files.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { ownFolder } from '../helpers/process.ts'
import { sendRequest } from '../helpers/requests.ts'

const LONG = { timeout: 120_000 }
const files = backupFolder()
let app: TestApp
let file: string
let dataDir: string
const [GONE, STAYS, BUSY] = ['Zephyrine Quill', 'Ottoline Marsh', 'Barnaby Thrush']
const ids: Record<string, { id: number; customer: number; number: string }> = {}

/** A store with three people of whom one is erased after its backup, in a folder of its own. */
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  const { id: accountId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  await requireStoresKey(app.db, app.deps.secretKey)
  for (const name of [GONE, STAYS]) ids[name] = await asked(app, await sendRequest(app, { name }))
  ids[BUSY] = await asked(app, await bookedToday(app))
  file = await files.backUp(app.store)
  dataDir = files.folder
  app.setClock('2026-03-04T15:00:00Z')
  expect(await eraseCustomer(app.deps, accountId, ids[GONE]!.customer)).toEqual({ is: 'erased' })
  await noteErased(app.db, dataDir)
  const log = { at: '2026-03-04T16:00:00Z', verb: 'erased', account_id: accountId } as const
  await app.db
    .insertInto('access_log')
    .values({ ...log, customer_id: ids[BUSY]!.customer, requests: [ids[BUSY]!.number] })
    .execute()
  await noteErased(app.db, dataDir)
})

afterAll(async () => {
  files.remove()
  await app.close()
})

async function asked({ db }: TestApp, { id }: { id: number }) {
  const row = db.selectFrom('quote_request').select(['customer_id', 'number']).where('id', '=', id)
  const { customer_id, number } = await row.executeTakeFirstOrThrow()
  return { id, customer: customer_id, number }
}

async function restored(): Promise<TestApp> {
  const other = await testApp()
  onTestFinished(other.close)
  await restoreBackup(other.store, await checkBackup(file), other.deps.now())
  other.setClock('2026-03-05T15:00:00Z')
  return other
}

const again = ({ db, deps }: TestApp) => eraseAgain(db, dataDir, deps.now())

async function everything({ store }: TestApp): Promise<string> {
  const { rows } = await store.executeSql(
    'select (select json_agg(c) from customer c)::text || (select json_agg(r) from quote_request r)::text as all',
  )
  return (rows[0] as { all: string }).all
}

test('what is noted names nobody, each erasing once', async () => {
  const before = readFileSync(erasedFile(dataDir), 'utf8')
  await noteErased(app.db, dataDir)
  const text = readFileSync(erasedFile(dataDir), 'utf8')
  expect(text).toBe(before)
  const lines = text
    .split('\n')
    .filter(Boolean)
    .map(line => JSON.parse(line))
  expect(lines).toEqual([
    {
      store: lines[0].store,
      at: '2026-03-04T15:00:00Z',
      customer: ids[GONE]!.customer,
      requests: [ids[GONE]!.number],
    },
    {
      store: lines[0].store,
      at: '2026-03-04T16:00:00Z',
      customer: ids[BUSY]!.customer,
      requests: [ids[BUSY]!.number],
    },
  ])
  expect(lines[0].store).toMatch(/^[0-9a-f]{16}$/)
  const { value } = await app.db.selectFrom('key_check').select('value').executeTakeFirstOrThrow()
  expect(value).not.toContain(lines[0].store)
})

test(
  'who was erased after the backup is erased again in it, and nobody else; then there is nothing left to do',
  LONG,
  async () => {
    const other = await restored()
    expect(await everything(other)).toContain(GONE)
    const outcome = await again(other)
    expect(outcome).toMatchObject({ erased: 1, held: [{ customer: ids[BUSY]!.customer }] })
    const left = await everything(other)
    expect([left.includes(GONE), left.includes(STAYS)]).toEqual([false, true])
    const logged = await other.db
      .selectFrom('access_log')
      .select(['account_id', 'customer_id', 'requests'])
      .execute()
    expect(logged).toEqual([
      { account_id: null, customer_id: ids[GONE]!.customer, requests: [ids[GONE]!.number] },
    ])
    expect(await again(other)).toMatchObject({ erased: 0 })
    await noteErased(other.db, dataDir)
    expect(await again(other)).toMatchObject({ erased: 0 })
  },
)

test('work that is ahead keeps them, and that is told until it is settled', LONG, async () => {
  const other = await restored()
  const told = tellErasedAgain(await again(other))
  const line = `Customer ${ids[BUSY]!.customer} (${ids[BUSY]!.number}) was erased on 2026-03-04, but can’t be erased here yet`
  expect(told).toEqual([expect.stringContaining('1 person'), expect.stringContaining(line)])
  const config = { ...other.deps.config, dataDir }
  expect(await checkErased({ ...other.deps, config })).toMatchObject({
    is: 'wrong',
    says: expect.stringContaining(line),
  })
  expect(await checkErased({ ...other.deps, config: { ...config, dataDir: '/nowhere' } })).toMatchObject({
    is: 'good',
  })
})

test('whoever came later and got the same numbers is somebody else', LONG, async () => {
  const other = await restored()
  await other.store.executeSql(`update quote_request set arrived_at = '2026-03-04T17:00:00Z'`)
  expect(await again(other)).toEqual({ erased: 0, held: [] })
  expect(await everything(other)).toContain(GONE)
})

test(
  'another store in the same folder is left alone, and a line that was cut off does no harm',
  LONG,
  async () => {
    const other = await restored()
    await other.db.updateTable('key_check').set({ value: 'of another key' }).execute()
    expect(await again(other)).toEqual({ erased: 0, held: [] })
    const folder = await ownFolder()
    appendFileSync(erasedFile(folder), '{"store":"cut o')
    await noteErased(app.db, folder)
    const third = await restored()
    expect(await eraseAgain(third.db, folder, third.deps.now())).toMatchObject({ erased: 1 })
  },
)
