import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { eraseCustomer } from '../../src/privacy/erase.ts'
import { recordHistory } from '../../src/requests/history.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, pay } from '../helpers/bills.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
let erased: number
let standing: number
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  erased = await paidRequest()
  standing = await paidRequest()
  expect(await eraseCustomer(app.deps, 1, await customerOf(erased))).toEqual({ is: 'erased' })
})
afterAll(() => app.close())

async function paidRequest(): Promise<number> {
  const { id } = await billedRequest(app)
  const bill = await app.db
    .selectFrom('bill')
    .select('total')
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  await pay(app, id, bill.total)
  return id
}

async function customerOf(id: number): Promise<number> {
  const row = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return row.customer_id
}

/** Tables that are kept as they were made, and which of their rows are a request's. */
const FROZEN = {
  quote: 'quote_request_id = ',
  quote_line: 'quote_id in (select id from quote where quote_request_id = ',
  acceptance: 'quote_id in (select id from quote where quote_request_id = ',
  accepted_text: 'quote_id in (select id from quote where quote_request_id = ',
  job_closing: 'quote_request_id = ',
  payment: 'quote_request_id = ',
  bill: 'quote_request_id = ',
  bill_line: 'bill_id in (select id from bill where quote_request_id = ',
}

const recordIn = (id: number) =>
  app.db.transaction().execute(trx => recordHistory(trx, id, { kind: 'clock' }, 'noted', app.deps.now()))

const rowsOf = (table: keyof typeof FROZEN, id: number) =>
  sql`${sql.raw(FROZEN[table])}${id}${sql.raw(FROZEN[table].includes('(') ? ')' : '')}`

/** Something else than what a column of a type has. */
const ANOTHER: Record<string, string> = {
  text: `coalesce(was, '') || 'x'`,
  jsonb: `'{"x": 1}'::jsonb`,
  numeric: 'coalesce(was, 0) + 1',
  integer: 'coalesce(was, 0) + 1',
  bigint: 'coalesce(was, 0) + 1',
  boolean: 'not was',
  date: `coalesce(was, '2026-01-01') + 1`,
  'timestamp with time zone': `coalesce(was, '2026-01-01') + interval '1 day'`,
}

const refusal = async (statement: ReturnType<typeof sql>) =>
  statement.execute(app.db).then(
    () => 'nothing was refused',
    (fault: { code?: string }) => fault.code,
  )

// 23000 is refused as it was made, 23514 by a check, 428C9 as an identity.
test.each(Object.keys(FROZEN) as (keyof typeof FROZEN)[])(
  'no column of %s takes another value than its blank, erased or not, and no row goes',
  async table => {
    const { rows } = await sql<{ name: string; type: string }>`
      select column_name as name, data_type as type from information_schema.columns
      where table_schema = current_schema() and table_name = ${table} and is_identity = 'NO'`.execute(app.db)
    const through: string[] = []
    for (const id of [erased, standing]) {
      for (const { name, type } of rows) {
        const another = sql.raw(ANOTHER[type]!.replaceAll('was', `"${name}"`))
        const code = await refusal(
          sql`update ${sql.table(table)} set ${sql.ref(name)} = ${another} where ${rowsOf(table, id)}`,
        )
        if (code !== '23000') through.push(`${name}: ${code}`)
      }
      expect(await refusal(sql`delete from ${sql.table(table)} where ${rowsOf(table, id)}`)).toBe('23000')
    }
    expect(through).toEqual([])
  },
)

test.each([
  ['acceptance', sql`update acceptance set typed_name = '–'`],
  [
    'quote',
    sql`update quote set note = '', why = null, job = blank_told(job), understood = blank_understood(understood), terms = blank_terms(terms)`,
  ],
  ['job_closing', sql`update job_closing set note = '', trips = 9`],
  [
    'bill',
    sql`update bill set place = '', order_number = '', tax_note = null, bill_to = '{"name": "–", "address": "", "email": ""}'`,
  ],
] as const)(
  'what blanks %s is refused where nobody is erased, or the years aren’t over',
  async (table, statement) => {
    expect(await refusal(sql`${statement} where ${rowsOf(table, standing)}`)).toBe('23000')
    if (table === 'bill' || table === 'job_closing')
      expect(await refusal(sql`${statement} where ${rowsOf(table, erased)}`)).toBe('23000')
  },
)

test('a mark is never taken back, set while money is owed or work is ahead, or set on papers before their time', async () => {
  const set = (what: string, id: number) =>
    refusal(sql`update quote_request set ${sql.raw(what)} where id = ${id}`)
  for (const what of [
    'erased_at = null',
    `erased_at = '2026-05-01'`,
    `stage = 'billed'`,
    `papers_erased_at = '2033-12-31T12:00:00Z'`,
    `note = 'x'`,
  ])
    expect([what, await set(what, erased)]).toEqual([what, '23514'])
  const owing = await billedRequest(app)
  const blank = `note = '', preferred_times = '', told = blank_told(told), measured = null, agreed = null, content_hash = null`
  expect(await set(`erased_at = '2026-05-01', ${blank}`, owing.id)).toBe('23514')
})

test('nothing is added to what is erased', async () => {
  const note = recordIn(erased)
  await expect(note).rejects.toMatchObject({ code: '23514' })
})
