import { createHash } from 'node:crypto'
import type { Kysely, Transaction } from 'kysely'
import { findMigrations } from '../db/migrate.ts'
import type { Store } from '../db/open.ts'
import type { Database } from '../db/schema.ts'
import { type End, FORMAT, type Head } from './format.ts'
import { findVersions, type RowVersion, readVersions } from './row-versions.ts'
import { openSpool, type Range, type Spool } from './spool.ts'
import { findSequences, findTables } from './tables.ts'
import { VERSION } from './version.ts'

/** All of a store as it was at one moment. */
export interface Snapshot {
  /** The lines of a backup, not packed yet; to be read once. */
  lines(): AsyncIterable<Buffer>
  /** Gives back what it is kept in; when done. */
  close(): Promise<void>
}

/** Where rows were put that have been read, by the version of them. */
type Kept = Map<RowVersion, Range>

interface Contents {
  migrations: string[]
  tables: { name: string; rows: number; ranges: Range[] }[]
  sequences: End['sequences']
}

/**
 * Reads all of a store as it is at one moment, into a file in `folder`, so that nobody who is slow to take the lines is
 * waited for. The one connection of the embedded store is held for a fraction of that: rows are read ahead, a batch
 * at a time, and in the end only those that were written meanwhile.
 */
export async function takeSnapshot(store: Store, at: Temporal.Instant, folder: string): Promise<Snapshot> {
  const spool = await openSpool(folder)
  try {
    const ahead = store.kind === 'embedded' ? await readAhead(store.db, spool) : new Map<string, Kept>()
    const contents = await store.db
      .transaction()
      .setIsolationLevel('repeatable read')
      .setAccessMode('read only')
      .execute(trx => readContents(trx, spool, ahead))
    return { lines: () => linesOf(contents, at, spool), close: spool.close }
  } catch (error) {
    await spool.close()
    throw error
  }
}

async function readAhead(db: Kysely<Database>, spool: Spool): Promise<Map<string, Kept>> {
  const ahead = new Map<string, Kept>()
  for (const table of await findTables(db)) {
    const kept: Kept = new Map()
    await keepRows(db, table, await findVersions(db, table), kept, spool)
    ahead.set(table, kept)
  }
  return ahead
}

async function readContents(
  trx: Transaction<Database>,
  spool: Spool,
  ahead: Map<string, Kept>,
): Promise<Contents> {
  const tables: Contents['tables'] = []
  for (const name of await findTables(trx)) {
    const kept = ahead.get(name) ?? new Map()
    const versions = await findVersions(trx, name)
    const missing = versions.filter(version => !kept.has(version))
    await keepRows(trx, name, missing, kept, spool)
    tables.push({ name, rows: versions.length, ranges: joined(versions.map(version => kept.get(version)!)) })
  }
  return { migrations: await findMigrations(trx), tables, sequences: await findSequences(trx) }
}

async function keepRows(db: Kysely<Database>, table: string, wanted: RowVersion[], kept: Kept, spool: Spool) {
  for await (const rows of readVersions(db, table, wanted)) {
    let [at] = await spool.write(rows.map(({ json }) => `${json}\n`).join(''))
    for (const { version, json } of rows) {
      const from = at
      at += Buffer.byteLength(json) + 1
      kept.set(version, [from, at])
    }
  }
}

/** The same with ranges that follow one another as one. */
function joined(ranges: Range[]): Range[] {
  const all: Range[] = []
  for (const [from, to] of ranges) {
    const last = all.at(-1)
    if (last?.[1] === from) last[1] = to
    else all.push([from, to])
  }
  return all
}

async function* linesOf(
  { migrations, tables, sequences }: Contents,
  at: Temporal.Instant,
  spool: Spool,
): AsyncGenerator<Buffer> {
  const hash = createHash('sha256')
  const hashed = (bytes: Buffer) => {
    hash.update(bytes)
    return bytes
  }
  const head: Head = { bedwright: 'backup', format: FORMAT, version: VERSION, at: at.toString(), migrations }
  yield hashed(lineOf(head))
  for (const { name, ranges } of tables) {
    yield hashed(lineOf(['table', name]))
    for (const range of ranges) for await (const piece of spool.read(range)) yield hashed(piece)
  }
  const rows = Object.fromEntries(tables.map(table => [table.name, table.rows]))
  const end: End = { rows, sequences, sha256: hash.digest('hex') }
  yield lineOf(['end', end])
}

function lineOf(value: unknown): Buffer {
  return Buffer.from(`${JSON.stringify(value)}\n`)
}
