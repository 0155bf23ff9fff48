import { afterAll, beforeAll, expect, test } from 'vitest'
import { NIGHTLY } from '../../src/letters/jobs.ts'
import { takeUpWork } from '../../src/letters/worker.ts'
import { messages } from '../../src/messages.ts'
import { type MailingApp, mailingApp } from '../helpers/mailing.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'
import { until } from '../helpers/until.ts'

let mailing: MailingApp

beforeAll(async () => {
  mailing = await mailingApp()
})

afterAll(() => mailing.close())

test('the nightly work is scheduled in the time of the business, and lets past quotes lapse and forgets how many mails went out', async () => {
  const { app, work } = mailing
  const { number, id } = await sendRequest(app)
  await quoteRequest(app, number)
  app.setClock('2026-04-02T15:00:00Z')
  const hours = ['2026-04-01T14:00:00Z', '2026-04-02T14:00:00Z']
  await app.db
    .insertInto('mail_hour')
    .values(hours.map(hour => ({ counted: 'all', hour, mails: 7 })))
    .execute()
  await takeUpWork(work, { ...app.deps, messages }, app.store)
  expect(await work.boss.getSchedule(NIGHTLY)).toMatchObject({
    cron: '30 3 * * *',
    timezone: 'America/Chicago',
  })
  await work.boss.send(NIGHTLY, {})
  const stage = async () => {
    const row = await app.db
      .selectFrom('quote_request')
      .select('stage')
      .where('id', '=', id)
      .executeTakeFirst()
    return row?.stage
  }
  await until(async () => (await stage()) === 'lapsed', { within: 15_000, what: 'the quote to lapse' })
  const completed = async () => {
    const [job] = await work.boss.findJobs(NIGHTLY)
    return job?.state === 'completed'
  }
  await until(completed, { within: 15_000, what: 'the nightly work to end' })
  expect(await app.db.selectFrom('mail_hour').select('hour').execute()).toEqual([{ hour: hours[1] }])
  expect(mailing.faults).toEqual([])
})
