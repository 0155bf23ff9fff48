import { type Kysely, sql } from 'kysely'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { type Store, vacuum } from '../../src/db/open.ts'
import { testStore } from '../helpers/store.ts'

interface Tables {
  crate: { id: number; label: string }
}

let store: Store
let db: Kysely<Tables>

beforeAll(async () => {
  store = await testStore()
  await store.executeSql('create table crate (id integer primary key, label text not null)')
  db = store.db as unknown as Kysely<Tables>
})

beforeEach(() => db.deleteFrom('crate').execute())
afterAll(() => store.close())

test('what a transaction did is kept when it ends well, and gone when it throws', async () => {
  await db.transaction().execute(trx => trx.insertInto('crate').values({ id: 1, label: 'kept' }).execute())
  const thrown = db.transaction().execute(async trx => {
    await trx.insertInto('crate').values({ id: 2, label: 'gone' }).execute()
    throw new Error('changed my mind')
  })
  await expect(thrown).rejects.toThrow('changed my mind')
  expect(await labels()).toEqual(['kept'])
})

test('a transaction whose failed statement was swallowed does not pass for committed', async () => {
  const swallowed = db.transaction().execute(async trx => {
    await trx.insertInto('crate').values({ id: 1, label: 'lost' }).execute()
    await sql`select 1 / 0`.execute(trx).catch(() => {})
  })
  await expect(swallowed).rejects.toThrow('rolled back')
  expect(await labels()).toEqual([])
})

test('a query beside a transaction stays out of it', async () => {
  const inside = Promise.withResolvers<void>()
  const beside = inside.promise.then(() =>
    db.insertInto('crate').values({ id: 2, label: 'beside' }).execute(),
  )
  const thrown = db.transaction().execute(async trx => {
    await trx.insertInto('crate').values({ id: 1, label: 'inside' }).execute()
    inside.resolve()
    await trx.selectFrom('crate').selectAll().execute()
    throw new Error('rolled back')
  })
  await expect(thrown).rejects.toThrow('rolled back')
  await beside
  expect(await labels()).toEqual(['beside'])
})

test('of twenty that compete for one row, each sees what the one before it left', async () => {
  await db.insertInto('crate').values({ id: 1, label: '0' }).execute()
  await Promise.all(
    Array.from({ length: 20 }, () =>
      db.transaction().execute(async trx => {
        const { label } = await trx
          .selectFrom('crate')
          .select('label')
          .where('id', '=', 1)
          .forUpdate()
          .executeTakeFirstOrThrow()
        await trx
          .updateTable('crate')
          .set({ label: `${Number(label) + 1}` })
          .where('id', '=', 1)
          .execute()
      }),
    ),
  )
  expect(await labels()).toEqual(['20'])
})

test('several statements at once: rows of each are given, and a fault inside begin and commit leaves no trace', async () => {
  const { rows } = await store.executeSql(`
    begin; insert into crate values (1, 'a') returning label; insert into crate values (2, 'b') returning label; commit`)
  expect(rows).toEqual([{ label: 'a' }, { label: 'b' }])
  const broken = store.executeSql(`begin; insert into crate values (3, 'c'); select 1 / 0; commit`)
  await expect(broken).rejects.toThrow('division by zero')
  expect(await labels()).toEqual(['a', 'b'])
})

test('a statement with values is run by itself', async () => {
  const { rows } = await store.executeSql('insert into crate values ($1, $2) returning id', [7, 'seven'])
  expect(rows).toEqual([{ id: 7 }])
  await expect(store.executeSql('insert into crate values ($1, $2)', [7, 'again'])).rejects.toThrow(
    'crate_pkey',
  )
  expect(await labels()).toEqual(['seven'])
})

test('the nightly sweep measures the tables', async () => {
  await db
    .insertInto('crate')
    .values([
      { id: 1, label: 'a' },
      { id: 2, label: 'b' },
    ])
    .execute()
  await vacuum(store)
  const { rows } = await store.executeSql(`select reltuples from pg_class where relname = 'crate'`)
  expect(rows).toEqual([{ reltuples: store.kind === 'embedded' ? 2 : -1 }])
})

async function labels(): Promise<string[]> {
  const rows = await db.selectFrom('crate').select('label').orderBy('id').execute()
  return rows.map(row => row.label)
}
