import { afterEach, beforeEach, expect, inject, test } from 'vitest'
import { readConfig } from '../../src/config.ts'
import { openMigratedStore } from '../../src/db/migrate.ts'
import { isCheckViolation, isUniqueViolation } from '../../src/db/violations.ts'
import { explain } from '../../src/explain.ts'
import { replaceKey, requireStoresKey } from '../../src/key-check.ts'
import { findLinkPath, revokeLink } from '../../src/requests/links.ts'
import { KeyUnusable } from '../../src/secret-key.ts'
import { open } from '../../src/serve.ts'
import { typed } from '../command/typed/typing.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { noStoreYet } from '../helpers/process.ts'
import { sendRequest } from '../helpers/requests.ts'

const KEYS = ['first key, of 32 characters or more', 'second key, of 32 characters or more'] as const

let app: TestApp
beforeEach(async () => {
  app = await testApp()
})
afterEach(() => app.close())

const checks = () => app.db.selectFrom('key_check').selectAll().execute()
const statusOf = async (path: string) => (await app.browser().get(path)).status

test('a store takes the first key, knows it again, and refuses any other', async () => {
  await requireStoresKey(app.db, KEYS[0])
  await requireStoresKey(app.db, KEYS[0])
  const before = await checks()
  await expect(requireStoresKey(app.db, KEYS[1])).rejects.toThrow(KeyUnusable)
  expect(await checks()).toEqual(before)
  expect(JSON.stringify(before)).not.toContain('first key')
})

test('of two that start at once with different keys, one is refused', async () => {
  const started = await Promise.allSettled(KEYS.map(key => requireStoresKey(app.db, key)))
  expect(started.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
  expect(await checks()).toHaveLength(1)
})

test('the database itself keeps no second one', async () => {
  await requireStoresKey(app.db, KEYS[0])
  const again = await app.db
    .insertInto('key_check')
    .values({ value: 'x' })
    .execute()
    .catch(error => error)
  expect(isUniqueViolation(again, 'key_check_pkey')).toBe(true)
  const beside = await app.db
    .insertInto('key_check')
    .values({ only: false, value: 'x' })
    .execute()
    .catch(error => error)
  expect(isCheckViolation(beside, 'key_check_only_check')).toBe(true)
})

// The start is one for both stores, and on this one it is quick.
if (inject('storeKind') === 'postgres') {
  test('a start with another key is refused in one line that says what to do', async () => {
    const { DATA_DIR, DATABASE_URL } = await noStoreYet()
    const store = await openMigratedStore({ dataDir: DATA_DIR!, databaseUrl: DATABASE_URL })
    await requireStoresKey(store.db, KEYS[0])
    await store.close()
    const config = readConfig({ DATA_DIR, DATABASE_URL, SECRET_KEY: KEYS[1] })
    const refusal = await open(await openMigratedStore(config), config, {
      now: app.deps.now,
      demo: false,
    }).catch(error => error)
    expect(explain(refusal, 'The start')).toBe(
      'This isn’t the key that this store’s links were made from. All instances must share one SECRET_KEY or one secret-key file. If you lost the right key, stop them all and switch to this one: npm run bedwright -- key replace',
    )
  })

  test('the command that takes another key lets the next start go on with it', async () => {
    const { DATA_DIR, DATABASE_URL } = await noStoreYet()
    const store = await openMigratedStore({ dataDir: DATA_DIR!, databaseUrl: DATABASE_URL })
    await requireStoresKey(store.db, KEYS[0])
    const env = { DATA_DIR: DATA_DIR!, DATABASE_URL: DATABASE_URL!, SECRET_KEY: KEYS[1] }
    expect(await typed('key replace', env)).toMatchObject({ code: 0, aside: '' })
    await requireStoresKey(store.db, KEYS[1])
    await expect(requireStoresKey(store.db, KEYS[0])).rejects.toThrow(KeyUnusable)
    await store.close()
  })
}

test('a replaced key makes the standing links anew, leaves ended ones ended, and signs nobody out', async () => {
  const { owner } = await openBusiness(app)
  const oldKey = app.deps.secretKey
  await requireStoresKey(app.db, oldKey)
  const { ownPath, id } = await sendRequest(app)
  const { path: bookingPath, id: quotedId } = await quotedRequest(app)
  const ended = await quotedRequest(app)
  await app.db.transaction().execute(trx => revokeLink(trx, 'booking', ended.id, app.deps.now()))
  const endedLinks = () => app.db.selectFrom('link').selectAll().where('revoked_at', 'is not', null).execute()
  const endedBefore = await endedLinks()

  // Of each of three requests its own page and the link that confirms its address, one booking link, and of both
  // prices the link that only reads.
  expect(await replaceKey(app.db, KEYS[0])).toBe(9)
  app.deps.secretKey = KEYS[0]
  for (const old of [ownPath, bookingPath]) expect(await statusOf(old)).toBe(404)
  // One that had ended still says so.
  expect(await statusOf(ended.path)).toBe(410)
  const shown = [
    await findLinkPath(app.db, KEYS[0], 'own page', id),
    await findLinkPath(app.db, KEYS[0], 'booking', quotedId),
  ]
  for (const path of shown) expect(await statusOf(path!)).toBe(200)
  expect(await endedLinks()).toEqual(endedBefore)
  expect((await owner.get('/queue')).status).toBe(200)

  await requireStoresKey(app.db, KEYS[0])
  await expect(requireStoresKey(app.db, oldKey)).rejects.toThrow(KeyUnusable)
  expect(await replaceKey(app.db, KEYS[0])).toBe(9)
  expect(await statusOf(shown[0]!)).toBe(200)
})

test('a replacing that is broken off half way leaves the old key and its links', async () => {
  await openBusiness(app)
  await requireStoresKey(app.db, app.deps.secretKey)
  const { ownPath } = await sendRequest(app)
  const brokenOff = app.db.withPlugin({
    transformQuery: ({ node }) => {
      if (node.kind === 'RawNode') throw new Error('broken off at the links')
      return node
    },
    transformResult: async ({ result }) => result,
  })
  await expect(replaceKey(brokenOff, KEYS[0])).rejects.toThrow('broken off at the links')
  await requireStoresKey(app.db, app.deps.secretKey)
  expect(await statusOf(ownPath)).toBe(200)
})
