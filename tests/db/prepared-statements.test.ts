import { type Kysely, sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../src/db/open.ts'
import { testStore } from '../helpers/store.ts'

interface Tables {
  barrow: { id: number; label: string }
}

let store: Store
let db: Kysely<Tables>

beforeAll(async () => {
  store = await testStore()
  db = store.db as unknown as Kysely<Tables>
  await store.executeSql(
    'create table barrow (id integer primary key constraint at_most_two check (id <= 2), label text)',
  )
  await db.insertInto('barrow').values({ id: 1, label: 'one' }).execute()
})
afterAll(() => store.close())

const all = () => db.selectFrom('barrow').selectAll().where('id', '=', 1).execute()

test('a statement that ran before gives the columns that its table has by now', async () => {
  expect(await all()).toEqual([{ id: 1, label: 'one' }])
  await sql`alter table barrow add column wheels integer default 1`.execute(db)
  expect(await all()).toEqual([{ id: 1, label: 'one', wheels: 1 }])
  await store.executeSql('alter table barrow drop column wheels')
  expect(await all()).toEqual([{ id: 1, label: 'one' }])
})

test('columns that were added and taken back with their transaction are gone for it too', async () => {
  await db
    .transaction()
    .execute(async trx => {
      await sql`alter table barrow add column handles integer default 2`.execute(trx)
      expect(await trx.selectFrom('barrow').selectAll().where('id', '=', 1).execute()).toEqual([
        { id: 1, label: 'one', handles: 2 },
      ])
      throw new Error('taken back')
    })
    .catch((error: Error) => expect(error.message).toBe('taken back'))
  expect(await all()).toEqual([{ id: 1, label: 'one' }])
})

test('more different statements than are kept give each its own rows, the first again too', async () => {
  const numbers = Array.from({ length: 600 }, (_, at) => at)
  const nth = async (n: number) => (await store.executeSql(`select ${n} + $1::int as sum`, [1])).rows
  for (const n of numbers) expect(await nth(n)).toEqual([{ sum: n + 1 }])
  expect(await nth(0)).toEqual([{ sum: 1 }])
})

test('a statement that was refused by its values works with others, and one that was never right stays wrong', async () => {
  const add = (id: number) => db.insertInto('barrow').values({ id, label: 'more' }).execute()
  for (const id of [3, 4])
    await expect(add(id)).rejects.toMatchObject({ code: '23514', message: /at_most_two/ })
  await add(2)
  await db.deleteFrom('barrow').where('id', '=', 2).execute()
  for (const _ of [1, 2]) await expect(sql`select nothing from barrow`.execute(db)).rejects.toThrow('nothing')
  expect(await all()).toHaveLength(1)
})

test('one refused in a transaction leaves those prepared before and in it working', async () => {
  const refused = db.transaction().execute(async trx => {
    await trx.selectFrom('barrow').select('label').where('id', '<', 5).execute()
    await trx.insertInto('barrow').values({ id: 9, label: 'too many' }).execute()
  })
  await expect(refused).rejects.toMatchObject({ code: '23514' })
  expect(await db.selectFrom('barrow').select('label').where('id', '<', 5).execute()).toEqual([
    { label: 'one' },
  ])
})

test('an error names the code that asked', async () => {
  const asked = async function whoAsked() {
    await sql`select 1 / 0`.execute(db)
  }
  const error = await asked().catch((thrown: Error) => thrown)
  expect((error as Error).stack).toContain('whoAsked')
})
