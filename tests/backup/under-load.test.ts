import { afterAll, expect, inject, onTestFinished, test } from 'vitest'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreBackup } from '../../src/backup/restore.ts'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { openMigratedStore } from '../../src/db/migrate.ts'
import { openStore } from '../../src/db/open.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { doneRequest } from '../helpers/bills.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { until } from '../helpers/until.ts'
import { backupFolder } from './files.ts'
import { everyRow } from './filled.ts'
import { NAMED, startWriting, type Written } from './writing.ts'

/** How many backups are taken one after another of a store that grows: one in every run, more by `BACKUPS` in a long one. */
const BACKUPS = Number(process.env.BACKUPS ?? 1)
/** So much is written anew before each of them. */
const ENOUGH = 12
/** And so much at most while it is taken. */
const MEANWHILE = 30
/** What comes with a link: one of each has to be there before. */
const LINKED = ['request', 'quote', 'photo', 'acceptance']
const LONG = { timeout: 120_000 + BACKUPS * 120_000 }

type Kind = 'embedded' | 'postgres'
const OWN: Kind = inject('storeKind') ?? 'embedded'
/** Every store into every one, in all runs together: on PostgreSQL the other kind is in a folder. */
const INTO: [Kind, Kind[]][] =
  OWN === 'embedded'
    ? [['embedded', ['embedded']]]
    : [
        ['postgres', ['postgres', 'embedded']],
        ['embedded', ['postgres']],
      ]

const files = backupFolder()
afterAll(files.remove)

test.each(INTO)(
  'a backup of the store %s while others write is the state of one moment, and goes on elsewhere from there: %s',
  LONG,
  async (from, targets) => {
    const app = await appOn(from, 'migrated')
    await openBusiness(app)
    await app.db.updateTable('business').set({ labor_hours_a_day: '500' }).execute()
    const writing = startWriting(app)
    const taken: { file: string; before: Written[]; during: number }[] = []
    try {
      while (taken.length < BACKUPS && !writing.hasStopped()) {
        const already = writing.written.length
        writing.allow(ENOUGH)
        const isEnough = () => writing.written.length >= already + ENOUGH && hasEveryKind(writing.written)
        await until(() => writing.hasStopped() || isEnough(), { within: 60_000, what: 'some writing' })
        writing.allow(MEANWHILE)
        const before = [...writing.written]
        const file = await files.backUp(app.store)
        taken.push({ file, before, during: writing.written.length - before.length })
      }
    } finally {
      await writing.stop()
    }
    expect(taken.filter(({ during }) => during === 0)).toEqual([])
    for (const { file, before } of taken) {
      const restored = await Promise.all(targets.map(target => restoredInto(target, file)))
      const [one, ...others] = await Promise.all(restored.map(other => everyRow(other.store)))
      for (const other of others) expect(other).toEqual(one)
      for (const other of restored) {
        await requireOneMoment(other, before, writing.written)
        await requireWhole(other)
        await requireLinksOpen(other, writing.written)
        await requireNumbersGoOn(other)
        await other.close()
      }
    }
  },
)

const hasEveryKind = (written: Written[]) =>
  LINKED.every(kind => written.some(({ what }) => what.startsWith(kind)))

async function appOn(kind: Kind, state: 'migrated' | 'empty'): Promise<TestApp> {
  const open = state === 'migrated' ? openMigratedStore : openStore
  const app =
    kind === OWN
      ? await testApp()
      : await testApp({ store: await open({ dataDir: await folderWithStore(), databaseUrl: undefined }) })
  onTestFinished(app.close)
  return app
}

async function restoredInto(kind: Kind, file: string): Promise<TestApp> {
  const other = await appOn(kind, 'empty')
  const backup = await checkBackup(file)
  const { rows } = await restoreBackup(other.store, backup, other.deps.now())
  const there = Object.entries(await everyRow(other.store)).map(([table, all]) => [table, all.length])
  expect(Object.fromEntries(there)).toEqual(rows)
  return other
}

/** All is there that was acknowledged before it began, and nothing without whatever had been acknowledged before that began. */
async function requireOneMoment({ store }: TestApp, before: Written[], all: Written[]) {
  const { rows } = await store.executeSql(NAMED)
  const there = new Set((rows as { what: string }[]).map(({ what }) => what))
  expect(before.filter(({ what }) => !there.has(what))).toEqual([])
  const missing = all.filter(({ what }) => !there.has(what))
  const firstMissing = Math.min(...missing.map(({ ended }) => ended))
  expect(all.filter(({ what, began }) => there.has(what) && began > firstMissing)).toEqual([])
}

/** No half of anything that is written together. */
async function requireWhole({ store, db }: TestApp) {
  const { rows } = await store.executeSql(`
    select number, stage,
      (select count(*) from ballpark where quote_request_id = r.id) as ballparks,
      (select count(*) from history where quote_request_id = r.id) as histories,
      (select count(*) from outbox where quote_request_id = r.id) as mails,
      (select count(*) from link where quote_request_id = r.id and purpose <> 'email address') as links,
      (select total from quote where quote_request_id = r.id)
        = (select sum(amount) from quote_line join quote on quote.id = quote_id where quote_request_id = r.id) as sum
    from quote_request r join customer on customer.id = customer_id where email = 'carol@example.com'`)
  const sent = { ballparks: 1, histories: 1, mails: 2, links: 1, sum: null }
  const quoted = { ballparks: 1, histories: 2, mails: 3, links: 3, sum: true }
  expect(rows.length).toBeGreaterThan(0)
  for (const row of rows as { stage: string }[])
    expect(row).toMatchObject(row.stage === 'new' ? sent : quoted)
  const failures = await db.selectFrom('sign_in_failure').select('who_hash').execute()
  const halves = failures.map(({ who_hash }) => who_hash.split(' ')[0])
  expect(halves.filter(half => halves.filter(one => one === half).length !== 2)).toEqual([])
  const bills = await store.executeSql(`
    select number from (select number, kind, nth, total, row_number() over (partition by kind, year order by nth) as turn,
      (select sum(amount) from bill_line where bill_id = bill.id) as sum from bill) as b
    where nth <> turn or sum <> total`)
  expect(bills.rows).toEqual([])
}

/** Of the links that were given out, the first and the last of each kind. */
async function requireLinksOpen(other: TestApp, written: Written[]) {
  const { rows } = await other.store.executeSql(NAMED)
  const there = new Set((rows as { what: string }[]).map(({ what }) => what))
  for (const kind of LINKED) {
    const links = written.flatMap(({ what, link }) =>
      what.startsWith(kind) && there.has(what) ? [link!] : [],
    )
    expect(links.length, kind).toBeGreaterThan(0)
    for (const link of new Set([links[0]!, links.at(-1)!]))
      expect({ kind, status: (await other.browser().get(link)).status }).toEqual({ kind, status: 200 })
  }
}

/** The next bill, credit memo and request have the number after the last one. */
async function requireNumbersGoOn(other: TestApp) {
  const lastOf = async (kind: string) => {
    const bills = other.db
      .selectFrom('bill')
      .select('number')
      .where('kind', '=', kind as never)
    return (await bills.orderBy('nth', 'desc').limit(1).executeTakeFirst())?.number
  }
  const after = (number: string | undefined, first: string) => {
    if (!number) return first
    const [letters, nth] = number.split('-')
    return `${letters}-${String(Number(nth) + 1).padStart(4, '0')}`
  }
  const { rows } = await other.store.executeSql('select max(number) as number from quote_request')
  const { number } = await sendRequest(other)
  expect(number).toBe(after((rows as { number: string }[])[0]!.number, ''))
  const { id } = await doneRequest(other)
  const [bill, memo] = [
    after(await lastOf('bill'), 'B26-0001'),
    after(await lastOf('credit memo'), 'C26-0001'),
  ]
  const made = await makeBill(other.deps, 1, id, { before: 0, added: [], total: null })
  expect(made).toBe(bill)
  expect(await creditBill(other.deps, 1, made, 'Wrong bed')).toBe(memo)
}
