import { sql } from 'kysely'
import { expect, onTestFinished, test } from 'vitest'
import { migrations } from '../../migrations/list.ts'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreBackup } from '../../src/backup/restore.ts'
import { findMigrations } from '../../src/db/migrate.ts'
import { fillPeople } from '../../src/fill-people.ts'
import { fillUnderstood } from '../../src/fill-understood.ts'
import { requireStoresKey } from '../../src/key-check.ts'
import { type LinkPurpose, pathOfLink } from '../../src/requests/links.ts'
import { testApp } from '../helpers/app.ts'
import { signedIn } from '../helpers/people.ts'
import { ALL_EARLIER, EARLIER, earlierStore, type Row } from './stores.ts'

const LONG = { timeout: 240_000 }
/** Sums that a table of the file has and the store must have still, by columns that every version had. */
const SUMS: [table: string, column: string][] = [
  ['quote', 'total'],
  ['quote_line', 'amount'],
  ['bill', 'total'],
  ['payment', 'amount'],
  ['work_day', 'taken_hours'],
]
const PAGES = ['/queue', '/days', '/customers', '/rates', '/settings', '/how-is-it-doing', '/outbox']

/** In hundredths, so that nothing is rounded. */
function sumOf(rows: Row[], column: string): number {
  return rows.reduce((sum, row) => sum + Math.round(Number(row[column] ?? 0) * 100), 0)
}

/** The store brought up to date, as a restore and the start after it do. */
async function upgraded(name: string) {
  const { path, told, read } = earlierStore(name)
  const file = read()
  const app = await testApp()
  onTestFinished(app.close)
  app.setClock(file.head.at)
  app.deps.secretKey = told.secretKey
  await restoreBackup(app.store, await checkBackup(path), app.deps.now())
  await requireStoresKey(app.db, told.secretKey)
  await fillUnderstood(app.db)
  await fillPeople(app.db)
  await app.deps.standing.read()
  return { app, told, file }
}

test('stores of several earlier versions are kept', () => {
  expect(ALL_EARLIER.length).toBeGreaterThanOrEqual(5)
})

test.each(EARLIER)('a store of %s is brought up to date with all that was in it', LONG, async name => {
  const { app, told, file } = await upgraded(name)
  expect(file.head.migrations.length).toBeLessThan(Object.keys(migrations).length)
  expect(await findMigrations(app.db)).toEqual(Object.keys(migrations))

  expect(file.tables.quote_request!.length).toBeGreaterThan(5)
  const { rows: requests } = await sql<{ number: string }>`select number from quote_request`.execute(app.db)
  expect(requests.map(({ number }) => number).sort()).toEqual(
    file.tables.quote_request!.map(row => row.number).sort(),
  )
  for (const [table, column] of SUMS.filter(([table]) => file.tables[table])) {
    const { rows } = await sql<{ sum: string }>`
      select coalesce(sum(${sql.ref(column)}), 0) * 100 as sum from ${sql.table(table)}`.execute(app.db)
    expect({ table, sum: Number(rows[0]!.sum) }).toEqual({ table, sum: sumOf(file.tables[table]!, column) })
  }

  const owner = await signedIn(app, told)
  const ofRequests = requests.map(({ number }) => `/queue/${number}`)
  for (const path of [...PAGES, ...ofRequests]) {
    const { status } = await owner.get(path).redirects(2)
    expect({ path, status }).toEqual({ path, status: 200 })
  }
})

test.each(EARLIER)('the links that people had from %s open', LONG, async name => {
  const { app, told, file } = await upgraded(name)
  const standing = file.tables.link!.filter(
    link => link.revoked_at === null && link.purpose !== 'email address',
  )
  const made = standing.map(link =>
    pathOfLink(told.secretKey, link.purpose as LinkPurpose, String(link.nonce)),
  )
  expect(made.length).toBeGreaterThan(5)
  for (const path of new Set([...told.links, ...made])) {
    const { status } = await app.browser().get(path).redirects(2)
    expect({ path, status }).toEqual({ path, status: 200 })
  }
})
