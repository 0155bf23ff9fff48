import { type Kysely, sql, type Transaction } from 'kysely'
import { json } from './db/json.ts'
import type { Database } from './db/schema.ts'
import type { Told } from './estimate/job/bed.ts'
import type { RateTable } from './estimate/table/rate-table.ts'
import type { JobUnderstood } from './estimate/understood/format.ts'
import { understoodThen } from './estimate/understood/stored.ts'
import { findInForceThen, requireRateTable } from './rates/queries.ts'

/** So many rows are held at a time, so that nobody waits long for one of them. */
const BATCH = 100

type Table = (version: number | null, at: string) => Promise<RateTable | undefined>

/**
 * Puts down what was understood wherever only what was typed was kept: what the reader of that time took it for, by the
 * rates of that time. Each row is filled in one statement; what it couldn't read stays as it is. Done again, or by two
 * at once, it comes to the same: whichever row another holds is left to that one. Gives how many rows were filled.
 */
export async function fillUnderstood(db: Kysely<Database>): Promise<number> {
  return (await inBatches(db, fillRequests)) + (await inBatches(db, fillQuotes))
}

interface Batch {
  filled: number
  /** The last id that was looked at; null when there was none left. */
  last: number | null
}

async function inBatches(
  db: Kysely<Database>,
  fill: (trx: Transaction<Database>, after: number) => Promise<Batch>,
): Promise<number> {
  let filled = 0
  for (let last: number | null = 0; last !== null; ) {
    const after: number = last
    const batch = await db.transaction().execute(trx => fill(trx, after))
    filled += batch.filled
    last = batch.last
  }
  return filled
}

async function fillRequests(trx: Transaction<Database>, after: number): Promise<Batch> {
  const rows = await trx
    .selectFrom('quote_request')
    .select(['id', 'arrived_at', 'told', 'understood', 'measured', 'measured_understood'])
    .select([
      sql<
        number | null
      >`(select max(rate_table_id) from ballpark where quote_request_id = quote_request.id)`.as('version'),
      sql<string | null>`(select max(done_at) from visit where quote_request_id = quote_request.id)`.as(
        'visited',
      ),
    ])
    .where('id', '>', after)
    .where(eb =>
      eb.or([
        eb('understood', 'is', null),
        eb.and([eb('measured', 'is not', null), eb('measured_understood', 'is', null)]),
      ]),
    )
    .orderBy('id')
    .limit(BATCH)
    .forUpdate('quote_request')
    .skipLocked()
    .execute()
  const table = tablesOf(trx)
  let filled = 0
  for (const { id, arrived_at, told, measured, version, visited, ...kept } of rows) {
    const understood = kept.understood ?? understoodOf(told, await table(version, arrived_at))
    const measuredUnderstood =
      kept.measured_understood ??
      (measured && understoodOf(measured, await table(null, visited ?? arrived_at)))
    if (understood === kept.understood && measuredUnderstood === kept.measured_understood) continue
    filled += 1
    await trx
      .updateTable('quote_request')
      .set({
        understood: understood && json(understood),
        measured_understood: measuredUnderstood && json(measuredUnderstood),
      })
      .where('id', '=', id)
      .execute()
  }
  return { filled, last: rows.at(-1)?.id ?? null }
}

async function fillQuotes(trx: Transaction<Database>, after: number): Promise<Batch> {
  const rows = await trx
    .selectFrom('quote')
    .select(['id', 'job', 'rate_table_id', 'made_at'])
    .where('id', '>', after)
    .where('understood', 'is', null)
    .orderBy('id')
    .limit(BATCH)
    .forUpdate()
    .skipLocked()
    .execute()
  const table = tablesOf(trx)
  let filled = 0
  for (const { id, job, rate_table_id, made_at } of rows) {
    const understood = understoodOf(job, await table(rate_table_id, made_at))
    if (!understood) continue
    filled += 1
    await trx
      .updateTable('quote')
      .set({ understood: json(understood) })
      .where('id', '=', id)
      .execute()
  }
  return { filled, last: rows.at(-1)?.id ?? null }
}

// Whatever is wrong with one old row, the others can be worked with.
function understoodOf(told: Told, table: RateTable | undefined): JobUnderstood | null {
  try {
    return table ? understoodThen(told, table) : null
  } catch {
    return null
  }
}

/** The rates of a version, or where none is known those in force at a moment; each is read once. */
function tablesOf(trx: Transaction<Database>): Table {
  const known = new Map<number | string, Promise<RateTable | undefined>>()
  const find = async (version: number | null, at: string) =>
    version === null
      ? (await findInForceThen(trx, Temporal.Instant.from(at)))?.body
      : (await requireRateTable(trx, version)).body
  return (version, at) => {
    const key = version ?? at
    const table = known.get(key) ?? find(version, at)
    known.set(key, table)
    return table
  }
}
