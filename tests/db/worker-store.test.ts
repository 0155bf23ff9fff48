import { expect, onTestFinished, test } from 'vitest'
import { migrations } from '../../migrations/list.ts'
import type { Store } from '../../src/db/open.ts'
import { shapeOf } from '../helpers/emptying.ts'
import { testStore } from '../helpers/store.ts'

const CAROL = `insert into customer (name, phone, email) values ('Carol', '5125550177', '') returning id`

async function opened(): Promise<Store> {
  const store = await testStore()
  onTestFinished(store.close)
  return store
}

const rowsOf = async (store: Store, query: string) => (await store.executeSql(query)).rows

test('what a test leaves behind is gone for the next, and numbers begin at 1 again', async () => {
  const first = await opened()
  expect(await rowsOf(first, CAROL)).toEqual([{ id: 1 }])
  await first.executeSql('create schema jobs; create table jobs.job (id integer)')
  await first.close()
  const next = await opened()
  expect(await rowsOf(next, 'select id from customer')).toEqual([])
  expect(await rowsOf(next, CAROL)).toEqual([{ id: 1 }])
  expect(await rowsOf(next, `select nspname from pg_namespace where nspname = 'jobs'`)).toEqual([])
})

test('one that is closed twice is not taken from who has it by then, and settings go', async () => {
  const first = await opened()
  await first.executeSql(`set statement_timeout = '7s'`)
  await first.close()
  const next = await opened()
  if (next.kind === 'embedded')
    expect(await rowsOf(next, 'show statement_timeout')).toEqual([{ statement_timeout: '0' }])
  await next.executeSql(CAROL)
  await first.close()
  const third = await opened()
  expect(await rowsOf(third, 'select id from customer')).toEqual([])
  expect(await rowsOf(next, 'select id from customer')).toEqual([{ id: 1 }])
})

test('it still knows which migrations it has had', async () => {
  const names = await rowsOf(await opened(), 'select name from kysely_migration order by name')
  expect(names).toEqual(Object.keys(migrations).map(name => ({ name })))
})

test('rows that are kept as they were made go too, and are kept in the next as well', async () => {
  const account = `insert into account (email, name, role, password_hash, made_at)
    values ('alice@fernbeds.example', 'Alice', 'owner', '', now())`
  const version = `insert into rate_table (version, body, made_at, made_by) values (1, '{}', now(), 1)`
  for (const _turn of [1, 2]) {
    const store = await opened()
    await store.executeSql(account)
    await store.executeSql(version)
    await expect(store.executeSql('delete from rate_table')).rejects.toThrow('kept as they were made')
    await store.close()
  }
})

test('of two that are open at once neither sees what is in the other', async () => {
  const [first, second] = [await opened(), await opened()]
  await first.executeSql(CAROL)
  expect(await rowsOf(second, 'select id from customer')).toEqual([])
})

test('one whose tables were changed in whatever way is not given to the next', async () => {
  const first = await opened()
  for (const change of [
    'alter table customer add column hat text',
    'create table crate (id integer)',
    'alter table rate_table disable trigger keep_as_made',
    'drop index quote_request_stage',
    'alter table visit alter column starts_at drop not null',
    'alter table work_day drop constraint work_day_has_room',
    `create or replace function refuse_change() returns trigger language plpgsql as 'begin return new; end'`,
    'alter table customer rename to client',
  ]) {
    const before = await shapeOf(first)
    await first.executeSql(change)
    expect(await shapeOf(first), change).not.toBe(before)
  }
  await first.close()
  const next = await opened()
  expect(next.db).not.toBe(first.db)
  expect(await rowsOf(next, CAROL)).toEqual([{ id: 1 }])
})
