import { sql, type Transaction } from 'kysely'
import { whileLoosened } from '../../src/backup/loosened.ts'
import { findTables } from '../../src/backup/tables.ts'
import type { Database } from '../../src/db/schema.ts'
import { OF_PERSON, type TableName } from '../../src/privacy/tables.ts'
import type { TestApp } from '../helpers/app.ts'

export const MARK = 'Zephyrine Quillfeather'

/** What no person ever writes: names of kinds, numbers, keys, hashes, slugs, and JSON that the program alone makes. */
const MACHINES = new RegExp(
  `^(?:${[
    'customer\\.(?:keyed_as)|place\\.keyed_as|quote_request\\.(?:number|stage|put_in_by|sent_as|language|step)',
    '(?:understood|measured_understood|quantity|result|choices|picked|conditions|tax|tax_names|terms|part|total|picks)',
    '\\w+\\.(?:kind|way|by_kind|verb|source|slug|unit|currency|language|purpose|nonce|token_hash|digest|digest_before|of|pack)',
    '(?:outbox\\.(?:kind|recipient|last_fault|once)|job_closing\\.outcome|job_left_over\\.goes|booking_day\\.part|job_hours\\.task)',
    'bill\\.(?:number|area)|access_log\\.requests|on_hand_move\\.key|quote_request\\.submission_key',
  ].join('|')})$`,
)

export interface Column {
  table: string
  column: string
  type: string
}

/** Every column of these tables that could hold what a person wrote. */
export async function writtenColumns({ db }: TestApp, tables: string[]): Promise<Column[]> {
  const { rows } = await sql<Column>`
    select table_name as table, column_name as column, data_type as type from information_schema.columns
    where table_schema = current_schema() and table_name = any(${tables}::text[])
      and data_type in ('text', 'jsonb', 'bytea') order by 1, 2`.execute(db)
  return rows.filter(({ table, column }) => !MACHINES.test(`${table}.${column}`) && !MACHINES.test(column))
}

/** Ends every request and squares all money, and writes the mark into all that a person could have written. */
export async function endAndMark(app: TestApp): Promise<Column[]> {
  const columns = await writtenColumns(app, Object.keys(OF_PERSON))
  const all = await findTables(app.db)
  await app.db.transaction().execute(trx =>
    whileLoosened(trx, all, async () => {
      await sql`update on_hand_move set quote_request_id = (select min(id) from quote_request)`.execute(trx)
      await sql`update payment set way = 'cash' where way = 'credit'`.execute(trx)
      await sql`
        insert into payment (quote_request_id, nth, kind, amount, day, way, made_at, made_by)
        select id, 90, case when money_owed(id) < 0 then 'refund' else 'payment' end, money_owed(id), '2026-03-02', 'cash',
          stage_at, 1 from quote_request
        where exists (select 1 from bill where quote_request_id = quote_request.id) and money_owed(id) <> 0`.execute(
        trx,
      )
      await sql`
        insert into payment (quote_request_id, nth, kind, amount, day, way, made_at, made_by)
        select quote_request_id, 91, 'deposit', 5, '2026-03-02', 'cash', told_at, 1 from purchase_order`.execute(
        trx,
      )
      await sql`
        insert into deposit_settled (quote_request_id, kept, back, settled_at, settled_by)
        select id, 0, 0, stage_at, 1 from quote_request where holds_money(id) on conflict do nothing`.execute(
        trx,
      )
      await sql`
        update quote_request set step = null, stage = case when exists (select 1 from bill where kind = 'bill'
          and quote_request_id = quote_request.id) then 'paid' else 'called off' end`.execute(trx)
      await sql`update booking set called_off_at = made_at where called_off_at is null`.execute(trx)
      for (const column of columns) await mark(trx, column)
      await sql`
        insert into bill_line (bill_id, position, kind, words, amount)
        select id, 90, 'other', ${JSON.stringify({ en: MARK, es: MARK })}::jsonb, 0 from bill`.execute(trx)
      await sql`
        with kept as (insert into kept_file (kind, bytes, made_at, made_by)
          values ('application/pdf', convert_to(${MARK}, 'UTF8'), '2026-03-02', 1) returning id)
        update job_certificate set file_id = (select id from kept)`.execute(trx)
    }),
  )
  return columns
}

// Of a photo that is held, or of what only moved in the yard, nobody is known.
async function mark(trx: Transaction<Database>, { table, column, type }: Column): Promise<void> {
  const at = sql.ref(column)
  const marked = JSON.stringify({ marked: MARK })
  const value =
    type === 'text'
      ? sql`coalesce(${at}, '') || ${MARK}`
      : type === 'bytea'
        ? sql`convert_to(${MARK}, 'UTF8')`
        : column === 'lines'
          ? sql`(select jsonb_agg(one || ${JSON.stringify({ reason: MARK, description: MARK })}::jsonb) from jsonb_array_elements(${at}) as one)`
          : ['why', 'tax_note', 'agreed'].includes(column)
            ? sql`${marked}::jsonb`
            : sql`case jsonb_typeof(${at}) when 'array' then ${at} || ${`[${marked}]`}::jsonb
                when 'object' then ${at} || ${marked}::jsonb else ${at} end`
  const digest = sql`, digest = encode(sha256(convert_to(${at} || ${MARK}, 'UTF8')), 'hex')`
  const only =
    table === 'bill_line'
      ? sql`where kind = 'other'`
      : OF_PERSON[table as TableName]?.via === 'request'
        ? sql`where quote_request_id is not null`
        : sql``
  await sql`update ${sql.table(table)} set ${at} = ${value} ${table === 'accepted_text' ? digest : sql``} ${only}`.execute(
    trx,
  )
}

/** In which columns of which tables the mark still stands, in words or in bytes. */
export async function marksLeft({ db }: Pick<TestApp, 'db'>): Promise<string[]> {
  const { rows } = await sql<Column>`
    select table_name as table, column_name as column, data_type as type from information_schema.columns
    where table_schema = current_schema() order by 1, 2`.execute(db)
  const tables = new Set(await findTables(db))
  const left: string[] = []
  for (const { table, column, type } of rows.filter(row => tables.has(row.table))) {
    const has =
      type === 'bytea'
        ? sql`position(convert_to(${MARK}, 'UTF8') in ${sql.ref(column)}) > 0`
        : sql`strpos(lower(${sql.ref(column)}::text), lower(${MARK})) > 0`
    const found = await sql`select 1 from ${sql.table(table)} where ${has} limit 1`.execute(db)
    if (found.rows.length > 0) left.push(`${table}.${column}`)
  }
  return left
}

const FIGURES = {
  quote:
    'id, revision, total, currency, labor_hours, labor_hours_worked_out, holds_until, tax, picked, made_at',
  quote_line: 'quote_id, position, kind, slug, quantity, unit, rate, worked_out, amount',
  quote_line_share: 'quote_id, position, stop, amount',
  acceptance: 'quote_id, accepted_at',
  bill: 'number, kind, day, due, total, tax, area, first_day, last_day, currency, undoes',
  bill_line: 'bill_id, position, kind, slug, quantity, amount',
  payment: 'id, quote_request_id, nth, kind, amount, tip, day, way',
  job_hours: 'closing_id, nth, task, minutes',
}

/** The figures and numbers that never change. */
export async function figuresOf({ db }: Pick<TestApp, 'db'>): Promise<Record<string, unknown[]>> {
  const all: Record<string, unknown[]> = {}
  for (const [table, columns] of Object.entries(FIGURES))
    all[table] = (
      await sql`select ${sql.raw(columns)} from ${sql.table(table)} order by 1, 2`.execute(db)
    ).rows
  return all
}
