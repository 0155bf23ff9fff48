import { sql } from 'kysely'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import type { Config } from '../../src/config.ts'
import { Arrivals } from '../../src/http/arrivals.ts'
import { requireStoresKey } from '../../src/key-check.ts'
import { checkAll } from '../../src/operations/check-all.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  app.setClock('2026-03-02T15:00:00Z')
  await requireStoresKey(app.db, app.deps.secretKey)
  await sendRequest(app)
})
afterAll(() => app.close())

async function check(config: Partial<Config> = {}, changed: Partial<TestApp['deps']> = {}) {
  const { secretKey } = app.deps
  const checks = await checkAll({
    ...app.deps,
    ...changed,
    config: { ...app.deps.config, secretKey, ...config },
  })
  return Object.fromEntries(checks.map(one => [one.what, one]))
}

test('the page says all that the command says, to the owner alone', async () => {
  const page = await owner.get('/how-is-it-doing').expect(200)
  for (const { what, says } of await checkAll(app.deps)) {
    expect(page.text).toContain(`<dt>${what}</dt>`)
    if (what !== 'Disk') expect(page.text).toContain(says.slice(0, 20))
  }
  const headings = [...page.text.matchAll(/<dt>(.*?)<\/dt>/g)].map(([, heading]) => heading)
  expect(headings).toEqual([...new Set(headings)])
  const settings = await owner.get('/settings').expect(200)
  expect(settings.text).toContain('href="/how-is-it-doing"')
})

test('the versions and the data are told', async () => {
  const { Versions, Data } = await check()
  expect(Versions).toMatchObject({ is: 'good', says: expect.stringMatching(/^Bedwright .*PostgreSQL 18\./) })
  expect(Data!.says).toMatch(/^1 request, /)
})

test('a clock that stands before what was noted is wrong', async () => {
  expect((await check()).Clock).toMatchObject({ is: app.kind === 'postgres' ? 'wrong' : 'good' })
  const behind = await check({}, { now: () => Temporal.Instant.from('2026-03-01T15:00:00Z') })
  expect(behind.Clock).toMatchObject({ is: 'wrong' })
  expect((await check({}, { now: Temporal.Now.instant })).Clock).toMatchObject({ is: 'good' })
})

test('another key than the store’s is wrong', async () => {
  expect((await check({ secretKey: app.deps.secretKey })).Key).toMatchObject({ is: 'good' })
  const other = await check({ secretKey: 'x' }, { secretKey: 'another key, of 32 characters or more' })
  expect(other.Key).toMatchObject({ is: 'wrong', todo: expect.stringContaining('key replace') })
  const gone = await check({ secretKey: undefined, dataDir: '/nowhere' })
  expect(gone.Key).toMatchObject({ is: 'wrong', says: 'The file /nowhere/secret-key is gone.' })
})

test.each([
  ['http://localhost:8080', [], 'look'],
  ['http://beds.example', [], 'wrong'],
  ['https://beds.example', [], 'look'],
  ['https://beds.example', ['10.0.0.1'], 'good'],
])('reached at %s with the proxies %j it is %s', async (publicUrl, trustedProxy, is) => {
  const arrivals = new Arrivals(app.deps.now)
  expect((await check({ publicUrl, trustedProxy }, { arrivals })).Address).toMatchObject({ is })
})

test('a message that has waited for the mail server over an hour is wrong', async () => {
  const smtpUrl = 'smtp://mail.example'
  expect((await check()).Messages).toMatchObject({ is: 'look', todo: expect.stringContaining('SMTP_URL') })
  const soon = { now: () => Temporal.Instant.from('2026-03-02T15:59:00Z') }
  expect((await check({ smtpUrl }, soon)).Messages).toMatchObject({ is: 'good' })
  const later = { now: () => Temporal.Instant.from('2026-03-02T16:01:00Z') }
  expect((await check({ smtpUrl }, later)).Messages).toMatchObject({ is: 'wrong' })
})

test('a folder that isn’t there is told of', async () => {
  expect((await check({ dataDir: '/nowhere/at/all' })).Disk).toMatchObject({ is: 'look' })
})

test('backups that failed or are old are told of, in the queue too', async () => {
  const at = '2026-03-02T15:00:00Z'
  const row = { tried_at: at, made_at: at, bytes: 4_200_000, fault: null }
  const put = (values: object) => app.db.updateTable('store_backup').set(values).execute()
  const queue = async () => (await owner.get('/queue')).text
  await app.db.insertInto('store_backup').values(row).execute()
  const embedded = { kind: 'embedded' } as const
  expect((await check({}, embedded)).Backups).toMatchObject({
    is: 'good',
    says: expect.stringMatching(/4\.2 MB.*They aren’t encrypted/),
  })
  const two = { backupRecipients: ['age1 of the owner', 'age1 of the office'] }
  for (const kind of ['embedded', 'postgres'] as const) {
    const { says, todo } = (await check(two, { kind })).Backups!
    expect(says + todo).toContain('They’re encrypted for 2 keys.')
  }
  expect(await queue()).not.toContain('backup')
  await put({ fault: 'There was no room.' })
  expect((await check({}, embedded)).Backups).toMatchObject({ is: 'wrong' })
  expect(await queue()).toContain('Last night’s backup failed: There was no room.')
  await put({ fault: null })
  app.setClock('2026-03-04T15:00:01Z')
  expect(await queue()).toContain('more than two days old')
  app.setClock(at)
  await app.db.deleteFrom('store_backup').execute()
})

test('a store that was never backed up is told of after two days, in the queue too, where its backups are ours to make', async () => {
  const made = (timestamp: string) =>
    sql`update kysely_migration set timestamp = ${timestamp}`.execute(app.db)
  onTestFinished(async () => {
    await made(new Date().toISOString())
  })
  const none = 'No backup has been made in more than two days.'
  const embedded = { kind: 'embedded' } as const
  await made('2026-02-28T15:00:00.000Z')
  expect((await check({}, embedded)).Backups).toMatchObject({ is: 'look' })
  expect((await owner.get('/queue')).text).not.toContain('No backup')
  await made('2026-02-28T14:59:59.999Z')
  expect((await check({}, embedded)).Backups).toMatchObject({
    is: 'wrong',
    says: `${none} There is none yet.`,
  })
  const atServer = (await check({}, { kind: 'postgres' })).Backups!
  expect(atServer).toMatchObject({
    is: 'look',
    says: 'A PostgreSQL server is backed up by whoever keeps it.',
  })
  expect((await owner.get('/queue')).text.includes(none)).toBe(app.kind === 'embedded')
})
