import { afterEach, beforeEach, expect, test } from 'vitest'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { NoLongerHolds } from '../../src/bookings/refusals.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
beforeEach(async () => {
  app = await testApp()
  await openBusiness(app)
  await app.deps.standing.read()
})
afterEach(() => app.close())

test('a request is sent at the rates in force then, though this process hasn’t noticed yet that another changed them', async () => {
  await app.store.executeSql(`insert into rate_table (version, body, made_at, made_by)
    select 2, jsonb_set(body, '{minimumCharge}', '"175"'), made_at, made_by from rate_table`)
  expect((await app.deps.standing.read()).rates!.version).toBe(1)
  const bed = bedTold({ sizes: { length: '1 ft', width: '1 ft' } })
  const { id } = await sendRequest(app, { told: told(bed) })
  const ballpark = await app.db
    .selectFrom('ballpark')
    .innerJoin('rate_table', 'rate_table.id', 'ballpark.rate_table_id')
    .select(['ballpark.likely', 'rate_table.version'])
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  expect(ballpark).toEqual({ likely: '175.00', version: 2 })
})

test('whether a quote still holds is decided by the business as it is then, too', async () => {
  const { id, revision } = await quotedRequest(app)
  // It holds until April 1, 2026; that is over in Auckland, and not yet in Chicago.
  app.setClock('2026-04-01T20:00:00Z')
  expect((await app.deps.standing.read()).business!.time_zone).toBe('America/Chicago')
  await app.store.executeSql(`update business set time_zone = 'Pacific/Auckland'`)
  await expect(acceptQuote(app.deps, id, { revision, typedName: 'Carol Reyes' })).rejects.toThrow(
    NoLongerHolds,
  )
  await app.store.executeSql(`update business set time_zone = 'America/Chicago'`)
  await acceptQuote(app.deps, id, { revision, typedName: 'Carol Reyes' })
})
