import { afterAll, beforeAll, expect, test } from 'vitest'
import { sweepKept } from '../../src/privacy/sweep.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const at = (iso: string) => ({ db: app.db, now: () => Temporal.Instant.from(iso) })

const names = async () =>
  (
    await app.db
      .selectFrom('quote_request')
      .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
      .select(['quote_request.id', 'customer.name', 'quote_request.erased_at'])
      .orderBy('quote_request.id')
      .execute()
  ).map(({ name, erased_at }) => (erased_at ? `(${name})` : name))

test('each night what is past its time goes, as of the day, and nothing a second time', async () => {
  const ended = async (
    name: string,
    stage: 'lapsed' | 'new' | 'paid',
    since: string,
    junk: string | null = null,
  ) => {
    const { id } = await sendRequest(app, { name, email: `${name}@example.org` })
    await app.db.updateTable('quote_request').set({ stage, stage_at: since }).where('id', '=', id).execute()
    await app.db.updateTable('quote_request').set({ junk_at: junk }).where('id', '=', id).execute()
    return id
  }
  await ended('Old', 'lapsed', '2026-03-01T12:00:00Z')
  await ended('Young', 'lapsed', '2026-03-03T12:00:00Z')
  await ended('Open', 'new', '2020-03-01T12:00:00Z')
  await ended('Paid', 'paid', '2020-03-01T12:00:00Z')
  await ended('Spam', 'new', '2026-03-01T12:00:00Z', '2026-03-01T12:00:00Z')
  await ended('Joined', 'lapsed', '2026-03-01T12:00:00Z')
  const customers = await app.db.selectFrom('customer').select('id').orderBy('id').execute()
  const [young, last] = [customers[1]!.id, customers[5]!.id]
  await app.db.updateTable('customer').set({ joined_to: young }).where('id', '=', last).execute()
  await app.db
    .insertInto('sign_in_failure')
    .values([
      { who_hash: 'old', failures: 1, last_at: '2029-01-30T12:00:00Z' },
      { who_hash: 'young', failures: 1, last_at: '2029-02-20T12:00:00Z' },
    ])
    .execute()
  await app.db
    .insertInto('moving_in')
    .values({
      file_name: 'a.csv',
      content_hash: 'x',
      file: 'Name',
      columns: '{}' as never,
      made_at: '2029-01-01T12:00:00Z',
      made_by: 1,
    })
    .execute()
  const messages = await app.db.selectFrom('outbox').select('id').execute()
  await app.db
    .updateTable('outbox')
    .set({ made_at: '2029-02-01T12:00:00Z' })
    .where('id', '=', messages[0]!.id)
    .execute()

  const night = at('2029-03-02T09:30:00Z')
  expect(await sweepKept(night)).toEqual({
    ...{ photos: 0, requests: 3, papers: 0, guesses: 1, files: 1 },
    messages: messages.length - 1,
  })
  expect(await names()).toEqual(['(–)', 'Young', 'Open', 'Paid', '(–)', '(Joined)'])
  expect(await sweepKept(night)).toEqual({
    photos: 0,
    requests: 0,
    papers: 0,
    messages: 0,
    guesses: 0,
    files: 0,
  })
  const log = await app.db
    .selectFrom('access_log')
    .select(['verb', 'account_id', 'customer_id', 'requests'])
    .execute()
  expect(log).toEqual([
    { verb: 'erased', account_id: null, customer_id: null, requests: ['26-0001', '26-0005', '26-0006'] },
  ])
})
