import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../src/db/open.ts'
import { testStore } from '../helpers/store.ts'

let store: Store
beforeAll(async () => {
  store = await testStore()
  await store.executeSql(`insert into account (email, name, role, password_hash, made_at)
    values ('alice@fernbeds.example', 'Alice', 'owner', '', now())`)
})
afterAll(() => store.close())

async function number(): Promise<number> {
  const { rows } = await store.executeSql('select number from standing_number')
  return (rows as { number: number }[])[0]?.number ?? 0
}

/** By how much the number goes up with one statement. */
async function raised(statement: string): Promise<number> {
  const before = await number()
  await store.executeSql(statement)
  return (await number()) - before
}

const BUSINESS = `insert into business values (true, 'Fern Beds', '', '', 'us', 'USD', 'UTC', 8, 30, 2, '{1,2}', 'US')`
const version = (of: number, from = 'null') =>
  `insert into rate_table (version, body, made_at, made_by, in_force_from) values (${of}, '{}', now(), 1, ${from})`

// In this order, as each rests on those before it.
const CHANGES: [string, number][] = [
  [BUSINESS, 1],
  [`update business set name = 'Moss Beds'`, 1],
  [version(1), 1],
  [version(2, `now() + interval '1 day'`), 1],
  ['insert into rate_table_called_off select id, now(), 1 from rate_table where version = 2', 1],
  ['delete from business', 1],
  ['truncate rate_table_called_off', 1],
  // Together with those that point at it: the ones it raises the number for are it and rate_table_called_off.
  ['truncate rate_table cascade', 2],
  [BUSINESS, 1],
  ['truncate business', 1],
]

test('every kind of change of the business and of the versions raises the number', async () => {
  for (const [statement, by] of CHANGES) expect([statement, await raised(statement)]).toEqual([statement, by])
})

test('a change that is refused or rolled back doesn’t raise it, nor does one of anything else', async () => {
  await store.executeSql(version(3))
  const before = await number()
  await expect(store.executeSql(`update rate_table set body = '[]'`)).rejects.toThrow(
    'kept as they were made',
  )
  const broken = store.db.transaction().execute(async trx => {
    await trx.deleteFrom('business').execute()
    throw new Error('enough')
  })
  await expect(broken).rejects.toThrow('enough')
  await store.executeSql(`insert into customer (name, phone, email) values ('Carol', '5125550177', '')`)
  await store.executeSql(`update account set name = 'Alice Fern'`)
  expect(await number()).toBe(before)
})
