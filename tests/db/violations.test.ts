import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../src/db/open.ts'
import {
  isCheckViolation,
  isExclusionViolation,
  isForeignKeyViolation,
  isUniqueViolation,
} from '../../src/db/violations.ts'
import { testStore } from '../helpers/store.ts'

let store: Store

beforeAll(async () => {
  store = await testStore()
  await store.executeSql(`
    create table crate (
      id integer constraint crate_key primary key,
      weight integer constraint crate_light check (weight < 10),
      shelf integer constraint crate_shelf references crate,
      days daterange,
      constraint crate_apart exclude using gist (days with &&)
    )`)
  await sql`insert into crate values (1, 1, null, '[2026-03-01,2026-03-05)')`.execute(store.db)
})

afterAll(() => store.close())

const cases = [
  { name: 'unique', is: isUniqueViolation, constraint: 'crate_key', values: '1, 1, null, null' },
  { name: 'check', is: isCheckViolation, constraint: 'crate_light', values: '2, 10, null, null' },
  { name: 'foreign key', is: isForeignKeyViolation, constraint: 'crate_shelf', values: '2, 1, 9, null' },
  {
    name: 'exclusion',
    is: isExclusionViolation,
    constraint: 'crate_apart',
    values: "2, 1, null, '[2026-03-04,2026-03-06)'",
  },
]

for (const { name, is, constraint, values } of cases) {
  test(`${name}: told by its kind and its constraint's name`, async () => {
    const error = await sql`insert into crate values (${sql.raw(values)})`
      .execute(store.db)
      .catch(error => error)
    expect(is(error)).toBe(true)
    expect(is(error, constraint)).toBe(true)
    expect(is(error, 'another')).toBe(false)
    expect(cases.filter(other => other.is(error)).map(other => other.name)).toEqual([name])
  })
}

test('another fault is no violation', async () => {
  const error = await sql`select * from nowhere`.execute(store.db).catch(error => error)
  expect(cases.some(({ is }) => is(error))).toBe(false)
  expect(isUniqueViolation(undefined)).toBe(false)
})
