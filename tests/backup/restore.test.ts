import { sql } from 'kysely'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { migrations } from '../../migrations/list.ts'
import { StoreNotEmpty } from '../../src/backup/empty-store.ts'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreBackup } from '../../src/backup/restore.ts'
import { findMigrations, migrate } from '../../src/db/migrate.ts'
import type { Store } from '../../src/db/open.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { unmigratedStore } from '../helpers/store.ts'
import { backupFolder } from './files.ts'
import { everyRow } from './filled.ts'

const NOW = Temporal.Instant.from('2026-03-05T15:00:00Z')
const LONG = { timeout: 120_000 }

const files = backupFolder()
let app: TestApp
let target: TestApp
let file: string
/** Ids of messages, by what has to become of them. */
const mails: Record<'due' | 'tried' | 'sent' | 'stopped' | 'old', string> = {} as never

beforeAll(async () => {
  app = await testApp()
  app.setClock('2026-03-02T15:00:00.001Z')
  await openBusiness(app)
  await quotedRequest(app)
  await sendRequest(app)
  const ids = (await app.db.selectFrom('outbox').select('id').execute()).map(({ id }) => id)
  const change = (id: string, values: object) =>
    app.db.updateTable('outbox').set(values).where('id', '=', id).execute()
  Object.assign(mails, { due: ids[0], tried: ids[1], sent: ids[2], stopped: ids[3], old: ids[4] })
  await change(mails.tried, { last_fault: 'ECONNECTION', attempts: 3 })
  await change(mails.sent, { sent_at: '2026-03-02T15:01:00Z' })
  await change(mails.stopped, { last_fault: 'stopped: EENVELOPE 550' })
  await change(mails.old, { tried_from: '2026-03-02T14:59:59Z' })
  file = await files.backUp(app.store)
  target = await testApp()
})

afterAll(async () => {
  files.remove()
  await target.close()
  await app.close()
})

const restoreInto = async (store: Store, from = file) => restoreBackup(store, await checkBackup(from), NOW)

async function emptyStore(): Promise<Store> {
  const store = await unmigratedStore()
  onTestFinished(store.close)
  return store
}

test('a store that has an owner is refused in one line, and left as it is', async () => {
  const before = await everyRow(app.store)
  const refusal = await restoreInto(app.store).catch(error => error)
  expect(refusal).toBeInstanceOf(StoreNotEmpty)
  expect(refusal.message).toMatch(/^The store isn’t empty/)
  expect(refusal.message).not.toContain('\n')
  expect(await everyRow(app.store)).toEqual(before)
})

test('a table of somebody else’s is refused rather than taken away', async () => {
  await target.store.executeSql('create table shed as select 7 as spades')
  await expect(restoreInto(target.store)).rejects.toThrow('"shed"')
  expect((await target.store.executeSql('select spades from shed')).rows).toEqual([{ spades: 7 }])
  await target.store.executeSql('drop table shed')
})

test.each([
  [
    'a row that the tables refuse',
    (lines: string[]) => lines.map(line => line.replace(/"stage":"\w+"/, '"stage":"lost"')),
    'stage',
  ],
  [
    'a row that points at none',
    (lines: string[]) => lines.map(line => line.replace('"made_by":1,', '"made_by":9,')),
    'foreign key',
  ],
  ['a table that there was not', (lines: string[]) => [...lines, '["table","shed"]'], '"shed"'],
])('a file with %s leaves an empty store as it was', async (_what, change, says) => {
  const wrong = files.changed(file, change)
  const checked = { ...(await checkBackup(file)), file: wrong }
  const before = await everyRow(target.store)
  expect(Object.values(before).flat()).toEqual([])
  await expect(restoreBackup(target.store, checked, NOW)).rejects.toThrow(says)
  expect(await everyRow(target.store)).toEqual(before)
  expect(await findMigrations(target.store.db)).toEqual(Object.keys(migrations))
})

test('one of an older Bedwright is brought up to date, on a store that is so already too', LONG, async () => {
  const [first] = Object.keys(migrations)
  const old = await emptyStore()
  await migrate(old, { [first!]: migrations[first!]! })
  await old.executeSql(OLD_ROWS)
  const older = await files.backUp(old)
  expect((await checkBackup(older)).head.migrations).toEqual([first])

  const other = await testApp()
  onTestFinished(other.close)
  for (const store of [await emptyStore(), other.store]) {
    await restoreInto(store, older)
    expect(await findMigrations(store.db)).toEqual(Object.keys(migrations))
    const { rows } = await sql`select revision, total, terms->>'work' as work, tax from quote`.execute(
      store.db,
    )
    // What the second migration gives to quotes that were made before it.
    expect(rows).toEqual([{ revision: 1, total: '150.00', work: 'upkeep', tax: null }])
  }
})

test('messages still to be sent are queued again, for what is left of their three days', LONG, async () => {
  const other = await testApp()
  onTestFinished(other.close)
  // Attempts to sign in may come before anybody has set it up.
  await other.browser().post('/sign-in').type('form').send({ email: 'a@example.com', password: 'a guess' })
  expect((await restoreInto(other.store)).queued).toBe((await unsent()).length)
  const { rows } = await other.store.executeSql(`
    select data->>'outboxId' as id, extract(epoch from keep_until - created_on)::float as seconds
    from pgboss.job where name = 'send-mail'`)
  const jobs = new Map((rows as { id: string; seconds: number }[]).map(({ id, seconds }) => [id, seconds]))
  expect([...jobs.keys()].sort()).toEqual(await unsent())
  for (const kind of ['due', 'tried'] as const) expect(jobs.has(mails[kind])).toBe(true)
  for (const kind of ['sent', 'stopped', 'old'] as const) expect(jobs.has(mails[kind])).toBe(false)
  // Made 72 hours and a millisecond before they would be too old; that millisecond is left.
  expect(Math.round(jobs.get(mails.due)!)).toBe(1)
})

/** Every message but those that were sent, given up or made more than 72 hours before. */
async function unsent(): Promise<string[]> {
  const rows = await app.db.selectFrom('outbox').select('id').execute()
  const gone = [mails.sent, mails.stopped, mails.old]
  return rows
    .map(({ id }) => id)
    .filter(id => !gone.includes(id))
    .sort()
}

const OLD_ROWS = `
  begin;
  insert into account (email, name, role, password_hash, made_at)
    values ('alice@fernbeds.example', 'Alice', 'owner', 'none', '2025-01-01Z');
  insert into rate_table (version, body, made_at, made_by) values (1, '{}', '2025-01-01Z', 1);
  insert into customer (name, phone, email) values ('Carol', '1', '');
  insert into place (customer_id, street, postcode, gate, dog) values (1, '12 Fern Lane', '43004', '', '');
  insert into quote_request (number, stage, stage_at, customer_id, place_id, submission_key, put_in_by, language,
    preferred_times, note, told, arrived_at)
    values ('25-0001', 'quoted', '2025-01-01Z', 1, 1, gen_random_uuid(), 'homeowner', 'en', '', '', '{}', '2025-01-01Z');
  insert into quote (quote_request_id, revision, rate_table_id, job, note, total, currency, crew_hours,
    crew_hours_worked_out, holds_until, made_by, made_at)
    values (1, 1, 1, '{}', '', 150, 'USD', 3, 3, '2025-02-01', 1, '2025-01-01Z');
  insert into quote_line (quote_id, position, kind, worked_out, amount) values (1, 1, 'finish', 150, 150);
  commit`
