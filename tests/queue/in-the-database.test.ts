import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { requireBusiness } from '../../src/business/queries.ts'
import { addDays } from '../../src/lib/dates.ts'
import { hearBy } from '../../src/own-page/stands.ts'
import { plainText } from '../../src/queue/plain-text.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

test('a text is made plain in the same way by the database and by us', async () => {
  const texts = [
    ['José GARCÍA', 'jose garcia'],
    ['O’Neill', 'oneill'],
    ["o'neill", 'oneill'],
    ['Łódź Straße', 'lodz strasse'],
    ['Ærø Ðelta Œuvre', 'aero ðelta oeuvre'],
    ['ΟΔΟΣ', 'οδοσ'],
    ['ﬁne ½', 'fine 1⁄2'],
    ['Улица', 'улица'],
  ] as const
  for (const [typed, plain] of texts) {
    const { rows } = await sql<{ plain: string }>`select plain_text(${typed}) as plain`.execute(app.db)
    expect([rows[0]!.plain, plainText(typed)]).toEqual([plain, plain])
  }
})

test('an answer is due when the day is over by which the homeowner was told to hear', async () => {
  const business = await requireBusiness(app.db)
  // A Thursday to a Monday, and the night in which the clocks change in Chicago.
  for (const sent of [
    '2026-03-05T15:00:00Z',
    '2026-03-07T05:59:59Z',
    '2026-03-07T06:00:00Z',
    '2026-03-09T04:30:00Z',
  ]) {
    const { rows } = await sql<{ due: string }>`select answer_due(${sent}) as due`.execute(app.db)
    const next = Temporal.PlainDate.from(addDays(hearBy(business, sent), 1))
    expect(rows[0]!.due).toBe(next.toZonedDateTime(business.time_zone).toInstant().toString())
  }
})

test('what a request is found by follows its customer, place and notes', async () => {
  const { id } = await sendRequest(app, { name: 'Rosa Old', street: '1 Elm Row' })
  const { customer_id, place_id } = await app.db
    .selectFrom('quote_request')
    .select(['customer_id', 'place_id'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  await app.db.updateTable('customer').set({ name: 'Rosa Núñez' }).where('id', '=', customer_id).execute()
  await app.db.updateTable('place').set({ street: '2 Oak Row' }).where('id', '=', place_id).execute()
  const { plain } = await app.db
    .selectFrom('request_text')
    .select('plain')
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  expect(plain).toContain(' rosa nunez ')
  expect(plain).toContain(' 2 oak row ')
  expect(plain).not.toContain('elm')
})
