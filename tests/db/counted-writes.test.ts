import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../src/db/open.ts'
import { testStore } from '../helpers/store.ts'

let store: Store
beforeAll(async () => {
  store = await testStore()
})
afterAll(() => store.close())

const year = (value: number) => ({ year: value, last: 1 })

/** By how much the count goes up while something is done, done wrong or not. */
async function counted(act: () => Promise<unknown>): Promise<number> {
  const before = store.writes()
  await act().catch(() => {})
  return store.writes() - before
}

test.each<[string, () => Promise<unknown>]>([
  ['an insert', () => store.db.insertInto('request_year').values(year(2001)).execute()],
  ['an update', () => store.db.updateTable('request_year').set({ last: 2 }).execute()],
  ['a delete', () => store.db.deleteFrom('request_year').where('year', '=', 2001).execute()],
  ['SQL written by hand', () => sql`update request_year set last = 3`.execute(store.db)],
  [
    'a select with an insert in it',
    () =>
      store.db
        .with('made', db => db.insertInto('request_year').values(year(2002)).returning('year'))
        .selectFrom('made')
        .select('year')
        .execute(),
  ],
])('%s outside a transaction counts once it is done', async (_what, write) => {
  expect(await counted(write)).toBe(1)
})

test.each<[string, () => Promise<unknown>]>([
  ['reading', () => store.db.selectFrom('request_year').selectAll().execute()],
  [
    'reading in a transaction',
    () =>
      store.db.transaction().execute(async trx => {
        await trx.selectFrom('request_year').selectAll().execute()
      }),
  ],
  [
    'a statement that is refused',
    () =>
      store.db
        .insertInto('request_year')
        .values([year(1), year(1)])
        .execute(),
  ],
  ['what the job queue runs', () => store.executeSql('delete from request_year where year = $1', [1900])],
])('%s doesn’t count', async (_what, act) => {
  expect(await counted(act)).toBe(0)
})

test('a transaction counts as one, when it is committed and not before', async () => {
  let within: number | undefined
  const all = await counted(() =>
    store.db.transaction().execute(async trx => {
      within = await counted(async () => {
        await trx.insertInto('request_year').values(year(2003)).execute()
        await trx.deleteFrom('request_year').where('year', '=', 2003).execute()
      })
    }),
  )
  expect([within, all]).toEqual([0, 1])
})

test('a transaction that is rolled back doesn’t count, and what follows on its connection does as ever', async () => {
  await store.db.connection().execute(async one => {
    const broken = () =>
      one.transaction().execute(async trx => {
        await trx.insertInto('request_year').values(year(2004)).execute()
        throw new Error('enough')
      })
    const reading = () =>
      one.transaction().execute(trx => trx.selectFrom('request_year').selectAll().execute())
    expect(await counted(broken)).toBe(0)
    expect(await counted(() => one.insertInto('request_year').values(year(2005)).execute())).toBe(1)
    expect(await counted(broken)).toBe(0)
    expect(await counted(reading)).toBe(0)
  })
  const years = await store.db.selectFrom('request_year').select('year').where('year', '>', 2003).execute()
  expect(years).toEqual([{ year: 2005 }])
})
