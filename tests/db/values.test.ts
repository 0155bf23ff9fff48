import { type RawBuilder, sql } from 'kysely'
import { afterAll, afterEach, beforeAll, describe, expect, onTestFinished, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import { openStore, type Store } from '../../src/db/open.ts'
import { testDatabase, testStore } from '../helpers/store.ts'

let store: Store
const zone = process.env.TZ

beforeAll(async () => {
  store = await testStore()
})

afterEach(() => {
  if (zone === undefined) delete process.env.TZ
  else process.env.TZ = zone
})

afterAll(() => store.close())

/** What PostgreSQL makes of a text, and what the program must be given for it. */
const read: [type: string, text: string, value: unknown][] = [
  ['boolean', 't', true],
  ['boolean', 'f', false],
  ['smallint', '-32768', -32768],
  ['integer', '2147483647', 2147483647],
  ['bigint', '9007199254740991', Number.MAX_SAFE_INTEGER],
  ['bigint', '-9007199254740991', Number.MIN_SAFE_INTEGER],
  ['real', '0.5', 0.5],
  ['double precision', '-1.25e-7', -1.25e-7],
  ['numeric', '12345678901234567890.10', '12345678901234567890.10'],
  ['numeric(10,2)', '0.5', '0.50'],
  ['text', `O'Hara "\\ñ`, `O'Hara "\\ñ`],
  ['varchar(9)', 'NULL', 'NULL'],
  ['char(3)', 'a', 'a  '],
  ['uuid', '00000000-0000-4000-8000-000000000001', '00000000-0000-4000-8000-000000000001'],
  ['date', '2026-03-08', '2026-03-08'],
  ['date', 'infinity', 'infinity'],
  ['time', '07:30', '07:30:00'],
  ['timestamp', '2026-03-08 02:30', '2026-03-08T02:30:00'],
  ['timestamptz', '2026-03-08 02:30:00.125-05', '2026-03-08T07:30:00.125Z'],
  ['timestamptz', '2026-11-01T05:59:59.999999Z', '2026-11-01T05:59:59.999999Z'],
  ['timestamptz', '-infinity', '-infinity'],
  ['interval', '1 month 2 days 03:04:05', '1 mon 2 days 03:04:05'],
  ['json', '{"a":[1,null]}', { a: [1, null] }],
  ['jsonb', '[{"a":"x"}]', [{ a: 'x' }]],
  ['jsonb', 'null', null],
  ['bytea', '\\x00ff5c27', Buffer.from([0, 255, 92, 39])],
  ['text[]', '{}', []],
  ['text[]', '{a,"b,c","d\\"e\\\\","",NULL,"NULL","{x}"}', ['a', 'b,c', 'd"e\\', '', null, 'NULL', '{x}']],
  [
    'text[]',
    '{{a,b},{c,NULL}}',
    [
      ['a', 'b'],
      ['c', null],
    ],
  ],
  ['integer[]', '[0:1]={1,2}', [1, 2]],
  ['bigint[]', '{1,NULL}', [1, null]],
  ['smallint[]', '{1,-2}', [1, -2]],
  ['real[]', '{0.5}', [0.5]],
  ['double precision[]', '{-1.25e-7}', [-1.25e-7]],
  ['numeric[]', '{1.10}', ['1.10']],
  ['json[]', '{"{\\"a\\": null}"}', [{ a: null }]],
  ['time[]', '{07:30}', ['07:30:00']],
  ['timestamp[]', '{"2026-03-08 02:30"}', ['2026-03-08T02:30:00']],
  ['interval[]', '{"2 days 03:04:05"}', ['2 days 03:04:05']],
  ['varchar[]', '{NULL,a}', [null, 'a']],
  ['char(2)[]', '{a}', ['a ']],
  ['name[]', '{a}', ['a']],
  ['oid', '7', 7],
  ['oid[]', '{7}', [7]],
  ['boolean[]', '{t,f}', [true, false]],
  ['date[]', '{2026-02-28,2028-02-29}', ['2026-02-28', '2028-02-29']],
  ['timestamptz[]', '{"2026-03-08 00:00:00+13"}', ['2026-03-07T11:00:00Z']],
  ['jsonb[]', '{"{\\"a\\": 1}"}', [{ a: 1 }]],
  ['uuid[]', '{00000000-0000-4000-8000-000000000001}', ['00000000-0000-4000-8000-000000000001']],
  ['bytea[]', '{"\\\\x00ff"}', [Buffer.from([0, 255])]],
]

/** Values as the program binds them, to a parameter of a type, and what PostgreSQL must have understood. */
const bound: [type: string, value: unknown, text: string][] = [
  ['boolean', true, 'true'],
  ['boolean', false, 'false'],
  ['integer', 7, '7'],
  ['bigint', 9007199254740993n, '9007199254740993'],
  ['double precision', 1e-7, '1e-07'],
  ['numeric', '0.10', '0.10'],
  ['text', 7, '7'],
  ['text', '{a}', '{a}'],
  ['date', '2026-03-08', '2026-03-08'],
  ['date', Temporal.PlainDate.from('2028-02-29'), '2028-02-29'],
  ['timestamptz', Temporal.Instant.from('2026-03-08T07:30:00Z'), '2026-03-08 07:30:00+00'],
  ['timestamptz', new Date(Date.UTC(2026, 2, 8, 7, 30)), '2026-03-08 07:30:00+00'],
  ['jsonb', { a: [1, { b: null }] }, '{"a": [1, {"b": null}]}'],
  ['jsonb', '"text"', '"text"'],
  ['bytea', new Uint8Array([0, 255]), '\\x00ff'],
  ['text[]', ['a,b', 'c"\\', '', null, 'NULL'], '{"a,b","c\\"\\\\","",NULL,"NULL"}'],
  ['text[]', [], '{}'],
  [
    'integer[]',
    [
      [1, 2],
      [3, 4],
    ],
    '{{1,2},{3,4}}',
  ],
  ['boolean[]', [true, null], '{t,NULL}'],
  ['date[]', ['2026-03-08'], '{2026-03-08}'],
]

// Behind, at and ahead of UTC, the first and the last with summer time at opposite ends of the year.
describe.each([
  { timeZone: 'UTC', hour: 0 },
  { timeZone: 'America/New_York', hour: 19 },
  { timeZone: 'Pacific/Auckland', hour: 13 },
])('where the clock is set to $timeZone', ({ timeZone, hour }) => {
  test('the program keeps that clock', () => {
    process.env.TZ = timeZone
    expect(new Date(Date.UTC(2026, 0, 1)).getHours()).toBe(hour)
  })

  test.each(read)('%s %s is read', async (type, text, value) => {
    process.env.TZ = timeZone
    expect(await one(sql`${sql.lit(text)}::${sql.raw(type)}`)).toEqual(value)
  })

  test.each(bound)('%s is bound from %o', async (type, value, text) => {
    process.env.TZ = timeZone
    expect(await one(sql`(${value}::${sql.raw(type)})::text`)).toBe(text)
  })
})

test('the zone and the spellings of a server don’t count, and aren’t gone back to', async () => {
  if (store.kind === 'embedded') return expect(await one(sql`current_setting('timezone')`)).toBe('UTC')
  const databaseUrl = await testDatabase()
  const opened = await openStore({ dataDir: '', databaseUrl })
  await opened.executeSql(`do $$ begin
    execute format('alter database %I set timezone to ''Pacific/Auckland''', current_database());
    execute format('alter database %I set datestyle to ''German''', current_database());
    execute format('alter database %I set intervalstyle to ''iso_8601''', current_database()); end $$`)
  await opened.close()
  const again = await openStore({ dataDir: '', databaseUrl })
  onTestFinished(again.close)
  for (const before of ['select 1', 'reset all']) {
    await again.executeSql(before)
    const { rows } = await again.executeSql(
      `select timestamptz '2026-03-08T07:30Z'::text as at, interval '1 day 2 hours'::text as long`,
    )
    expect(rows).toEqual([{ at: '2026-03-08 07:30:00+00', long: '1 day 02:00:00' }])
  }
})

test('nothing is bound as null, and null is read as null', async () => {
  expect(await one(sql`${null}::text is null`)).toBe(true)
  expect(await one(sql`${undefined}::text is null`)).toBe(true)
  expect(await one(sql`null::bigint`)).toBe(null)
})

test('a whole number too large to hold is refused rather than rounded', async () => {
  await expect(one(sql`9007199254740992::bigint`)).rejects.toThrow('9007199254740992 is too large')
  expect(await one(sql`1`)).toBe(1)
})

test('any JSON value goes through json() and comes back', async () => {
  for (const value of [[1, 'a'], { a: null }, 'text', 7, true, null, [{}]]) {
    expect(await one(sql`${json(value)}`)).toEqual(value)
    expect(await one(sql`jsonb_typeof(${json(value)})`)).toBe(kindOf(value))
  }
})

test('counts are numbers, and changes are counted', async () => {
  await store.executeSql('create table tally (id bigint generated always as identity, n integer)')
  const db = store.db.withTables<{ tally: { id: number; n: number } }>()
  const { numInsertedOrUpdatedRows } = await db
    .insertInto('tally')
    .values([{ n: 1 }, { n: 2 }] as never)
    .executeTakeFirstOrThrow()
  expect(numInsertedOrUpdatedRows).toBe(2n)
  expect(
    (await db.updateTable('tally').set({ n: 3 }).where('n', '=', 9).executeTakeFirstOrThrow()).numUpdatedRows,
  ).toBe(0n)
  expect((await db.updateTable('tally').set({ n: 3 }).executeTakeFirstOrThrow()).numUpdatedRows).toBe(2n)
  expect(
    await db
      .selectFrom('tally')
      .select(eb => eb.fn.countAll().as('rows'))
      .executeTakeFirst(),
  ).toEqual({ rows: 2 })
  expect((await db.deleteFrom('tally').where('id', '=', 1).executeTakeFirstOrThrow()).numDeletedRows).toBe(1n)
})

async function one(expression: RawBuilder<unknown>): Promise<unknown> {
  const { rows } = await sql<{ value: unknown }>`select ${expression} as value`.execute(store.db)
  return rows[0]!.value
}

function kindOf(value: unknown): string {
  return value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value
}
