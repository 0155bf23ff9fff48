import { sql } from 'kysely'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import type { Told } from '../../src/estimate/job/bed.ts'
import { fillUnderstood } from '../../src/fill-understood.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { ballparksAgain, quotesAgain } from '../helpers/worked-out-again.ts'

let app: TestApp

beforeEach(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterEach(() => app.close())

const sizesOf = (beds: Told | { beds: { sizes: unknown }[] } | null) => beds?.beds.map(({ sizes }) => sizes)

function stored(id: number) {
  return app.db
    .selectFrom('quote_request')
    .leftJoin('quote', 'quote.quote_request_id', 'quote_request.id')
    .select(['quote_request.understood', 'measured_understood', 'quote.understood as quoted', 'quote.job'])
    .where('quote_request.id', '=', id)
    .executeTakeFirstOrThrow()
}

/** Makes rows what an earlier release left: as typed, and nothing else. */
async function asBefore(id: number, typed: Partial<Record<'told' | 'measured' | 'job', Told>> = {}) {
  await app.db.transaction().execute(async trx => {
    // A quote is kept as it was made, by a trigger.
    await sql`set local session_replication_role = replica`.execute(trx)
    const { job, ...beds } = typed
    await trx
      .updateTable('quote_request')
      .set({
        understood: null,
        measured_understood: null,
        ...Object.fromEntries(Object.entries(beds).map(([name, value]) => [name, json(value)])),
      })
      .where('id', '=', id)
      .execute()
    await trx
      .updateTable('quote')
      .set({ understood: null, ...(job && { job: json(job) }) })
      .where('quote_request_id', '=', id)
      .execute()
  })
}

/** A request that was measured and quoted. */
async function quoted(beds: Told) {
  const { id, number } = await sendRequest(app, { told: beds })
  await setVisit(app.deps, 1, id, app.deps.now())
  await keepMeasurements(app.deps, 1, id, {
    ...beds,
    beds: beds.beds.map(bed => ({ ...bed, toldBed: null })),
  })
  await quoteRequest(app, number)
  return { id, number }
}

test('rows from before come to what they would have had, and their prices stay', async () => {
  const beds = told(bedTold({ sizes: { length: '40 paces', width: '5-6 ft' }, lying: 'thin', depth: '' }))
  const { id } = await quoted(beds)
  const before = await stored(id)
  expect(before.quoted).not.toBeNull()
  await asBefore(id)
  // At the rates of today a pace is longer: what was stored was read by those of its own time.
  app.setClock('2026-03-20T15:00:00Z')
  await putInForce(app, table => ({ ...table, pace: '3' }))
  expect(await fillUnderstood(app.db)).toBe(2)
  expect(await stored(id)).toEqual(before)
  for (const { of, stored: kept, again } of [
    ...(await ballparksAgain(app.db)),
    ...(await quotesAgain(app.db)),
  ])
    expect([of, again]).toEqual([of, kept])
  expect(await fillUnderstood(app.db)).toBe(0)
})

test('text that means something else by now means what it was taken for then', async () => {
  const { id } = await quoted(told())
  // The first reader took a range that falls for its middle, and half of what it falls by for two standard errors.
  const falling = told(bedTold({ sizes: { length: '12-6', width: '5' } }))
  await asBefore(id, { told: falling, measured: falling, job: falling })
  await fillUnderstood(app.db)
  const { understood, measured_understood, quoted: quote } = await stored(id)
  const nine = { length: { value: '9', unit: 'ft', spread: '1.5' }, width: { value: '5', unit: 'ft' } }
  for (const beds of [understood, measured_understood, quote]) expect(sizesOf(beds)).toEqual([nine])
})

test('a row that can’t be read stays as it is, and the others are filled', async () => {
  const [unread, other] = [await quoted(told()), await quoted(told())]
  const unreadable = told(bedTold({ sizes: { length: 'a rod', width: '5' } }))
  await asBefore(unread.id, { told: unreadable, job: unreadable })
  await asBefore(other.id)
  expect(await fillUnderstood(app.db)).toBe(3)
  const left = await stored(unread.id)
  expect([left.understood, left.quoted]).toEqual([null, null])
  expect(sizesOf(left.measured_understood)).toHaveLength(1)
  expect((await stored(other.id)).understood).not.toBeNull()
  expect(await fillUnderstood(app.db)).toBe(0)
})

test('two at once fill each row once, and more than a batch of them', async () => {
  const { id } = await sendRequest(app)
  const before = await stored(id)
  await asBefore(id)
  await sql`
    insert into quote_request (number, stage, stage_at, customer_id, place_id, submission_key, put_in_by, language,
      preferred_times, note, told, arrived_at)
    select 'copy-' || nth, stage, stage_at, customer_id, place_id, gen_random_uuid(), put_in_by, language,
      preferred_times, note, told, arrived_at from quote_request, generate_series(1, 230) as nth where id = ${id}
  `.execute(app.db)
  const filled = await Promise.all([fillUnderstood(app.db), fillUnderstood(app.db)])
  // What one skipped because the other held it, that one filled.
  expect(filled[0]! + filled[1]!).toBe(231)
  const rows = await app.db
    .selectFrom('quote_request')
    .select('understood')
    .where(eb => eb.or([eb('id', '=', id), eb('number', 'like', 'copy-%')]))
    .execute()
  expect(rows).toHaveLength(231)
  for (const { understood } of rows) expect(understood).toEqual(before.understood)
})

test('a quote takes what was understood once, and nothing else of it changes', async () => {
  const { id } = await quoted(told())
  const { quoted: understood } = await stored(id)
  const change = (set: object) =>
    app.db
      .updateTable('quote')
      .set(set)
      .where('quote_request_id', '=', id)
      .execute()
      .then(() => 'changed')
      .catch(error => String(error))
  expect(await change({ understood: json({ ...understood!, postcode: '1' }) })).toMatch(
    'kept as they were made',
  )
  await asBefore(id)
  expect(await change({ understood: json(understood!), note: 'Else' })).toMatch('kept as they were made')
  expect(await change({ note: 'Else' })).toMatch('kept as they were made')
  expect(await change({ understood: json(understood!) })).toBe('changed')
})
