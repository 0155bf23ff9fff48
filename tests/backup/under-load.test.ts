import { setImmediate } from 'node:timers/promises'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { restoreBackup } from '../../src/backup/restore.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'
import { until } from '../helpers/until.ts'
import { backupFolder } from './files.ts'

const WRITERS = 2
const LONG = { timeout: 120_000 }
const files = backupFolder()
let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})

afterAll(async () => {
  files.remove()
  await app.close()
})

test(
  'a backup while others write is the state of one moment, with all that was acknowledged before',
  LONG,
  async () => {
    let stopping = false
    const acknowledged: string[] = []
    const write = async (_: unknown, writer: number) => {
      while (!stopping) {
        // As a request that comes over the network does: a store in memory leaves no other moment to anything else.
        await setImmediate()
        // Two rows that come and go together.
        const pair = ['one', 'other'].map(half => `${writer} ${half}`)
        const failed = { failures: 1, last_at: app.deps.now().toString() }
        await app.db
          .insertInto('sign_in_failure')
          .values(pair.map(who_hash => ({ who_hash, ...failed })))
          .execute()
        const { number } = await sendRequest(app)
        await app.db.deleteFrom('sign_in_failure').where('who_hash', 'in', pair).execute()
        await quoteRequest(app, number, { laborHours: '2' })
        acknowledged.push(number)
      }
    }
    const writers = Promise.all(Array.from({ length: WRITERS }, write))
    const backUp = async () => {
      await until(() => acknowledged.length >= 6, { within: 60_000, what: 'some writing' })
      const before = [...acknowledged]
      const file = await files.backUp(app.store)
      return { before, file, during: acknowledged.length - before.length }
    }
    const { before, file, during } = await backUp().finally(() => {
      stopping = true
      return writers
    })
    expect(during).toBeGreaterThan(0)

    const other = await testApp()
    onTestFinished(other.close)
    await restoreBackup(other.store, await checkBackup(file), app.deps.now())
    const { rows } = await other.store.executeSql(`
    select number, stage,
      (select count(*) from ballpark where quote_request_id = r.id) as ballparks,
      (select count(*) from history where quote_request_id = r.id) as histories,
      (select count(*) from outbox where quote_request_id = r.id) as mails,
      (select count(*) from link where quote_request_id = r.id and purpose <> 'email address') as links,
      (select total from quote where quote_request_id = r.id)
        = (select sum(amount) from quote_line join quote on quote.id = quote_id where quote_request_id = r.id) as sum
    from quote_request r`)
    const found = rows as { number: string; stage: string }[]
    const numbers = found.map(({ number }) => number)
    expect(before.filter(number => !numbers.includes(number))).toEqual([])
    const sent = { ballparks: 1, histories: 1, mails: 2, links: 1, sum: null }
    const quoted = { ballparks: 1, histories: 2, mails: 3, links: 3, sum: true }
    const failures = await other.db.selectFrom('sign_in_failure').select('who_hash').execute()
    const halves = failures.map(({ who_hash }) => who_hash.split(' ')[0])
    expect(halves.filter(half => halves.filter(one => one === half).length !== 2)).toEqual([])
    for (const row of found) expect(row).toMatchObject(row.stage === 'new' ? sent : quoted)
  },
)
