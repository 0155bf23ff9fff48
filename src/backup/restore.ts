import { sql, type Transaction } from 'kysely'
import { migrations } from '../../migrations/list.ts'
import { migrate } from '../db/migrate.ts'
import { type Store, vacuum } from '../db/open.ts'
import type { Database } from '../db/schema.ts'
import { startBackgroundWork } from '../letters/jobs.ts'
import { queueUnsent } from '../letters/queue-unsent.ts'
import { dropTables, requireEmpty } from './empty-store.ts'
import { BackupUnusable, type End, type Line } from './format.ts'
import { whileLoosened } from './loosened.ts'
import { type CheckedBackup, readBackup } from './read-backup.ts'
import { findTables } from './tables.ts'

const BATCH = { rows: 500, characters: 1_000_000 }
const GRACE = 5_000

export interface Restored {
  /** How many rows, by table. */
  rows: End['rows']
  /** How many messages wait to be sent again. */
  queued: number
}

/**
 * Puts a backup into an empty store, all or none, and brings it up to date from there. Messages that were still to be
 * sent are queued again.
 * @throws {StoreNotEmpty} and leaves the store as it is
 * @throws {BackupUnusable} when the file has changed since it was checked
 */
export async function restoreBackup(
  store: Store,
  backup: CheckedBackup,
  now: Temporal.Instant,
): Promise<Restored> {
  await store.db.transaction().execute(requireEmpty)
  const work = await startBackgroundWork(store)
  try {
    const queued = await store.db.transaction().execute(async trx => {
      await sql`select pg_advisory_xact_lock(hashtext('bedwright restore'))`.execute(trx)
      await requireEmpty(trx)
      await restoreAsItWas(trx, backup)
      await migrate({ db: trx })
      return (
        (await queueUnsent(work.boss, trx, now, 'mail')) + (await queueUnsent(work.boss, trx, now, 'text'))
      )
    })
    await vacuum(store)
    return { rows: backup.end.rows, queued }
  } finally {
    await work.stop(GRACE)
  }
}

/** Makes the tables of an empty store anew as the backup's release had them, and fills them; nothing is brought up to date. */
export async function restoreAsItWas(
  trx: Transaction<Database>,
  { file, head, end, opener }: CheckedBackup,
): Promise<void> {
  await dropTables(trx)
  const had = Object.entries(migrations).slice(0, head.migrations.length)
  await migrate({ db: trx }, Object.fromEntries(had))
  const tables = await findTables(trx)
  await whileLoosened(trx, tables, () => insertRows(trx, readBackup(file, opener), tables, file))
  for (const [name, last] of Object.entries(end.sequences)) await setSequence(trx, name, last)
}

async function insertRows(
  trx: Transaction<Database>,
  lines: AsyncIterable<Line>,
  tables: string[],
  file: string,
): Promise<void> {
  let table = ''
  let waiting: string[] = []
  let characters = 0
  const insertWaiting = async () => {
    if (waiting.length > 0) await insertBatch(trx, table, waiting)
    waiting = []
    characters = 0
  }
  for await (const line of lines) {
    if (line.kind !== 'row') await insertWaiting()
    if (line.kind === 'table') {
      if (!tables.includes(line.name))
        throw new BackupUnusable(
          `${file} has a table "${line.name}", which its version of Bedwright didn't have.`,
        )
      table = line.name
    }
    if (line.kind === 'row') {
      waiting.push(line.json)
      characters += line.json.length
      if (waiting.length >= BATCH.rows || characters >= BATCH.characters) await insertWaiting()
    }
  }
}

async function insertBatch(trx: Transaction<Database>, table: string, rows: string[]): Promise<void> {
  await sql`
    insert into ${sql.table(table)} overriding system value
    select * from json_populate_recordset(null::${sql.table(table)}, ${`[${rows.join()}]`}::json)`.execute(
    trx,
  )
}

async function setSequence(trx: Transaction<Database>, name: string, last: number | null): Promise<void> {
  if (last !== null)
    await sql`select setval(quote_ident(${name}::text)::regclass, ${last}::bigint)`.execute(trx)
}
