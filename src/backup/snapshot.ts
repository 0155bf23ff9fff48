import { createHash, type Hash } from 'node:crypto'
import { sql, type Transaction } from 'kysely'
import { findMigrations } from '../db/migrate.ts'
import type { Store } from '../db/open.ts'
import type { Database } from '../db/schema.ts'
import { linkToken } from '../lib/tokens.ts'
import { type End, FORMAT, type Head } from './format.ts'
import { openSpool, type Spool } from './spool.ts'
import { findSequences, findTables } from './tables.ts'
import { VERSION } from './version.ts'

const BATCH_CHARACTERS = 1_000_000
const BATCH_ROWS = { first: 10, most: 2_000 }

/**
 * Reads all of a store as it is at one moment, into a spool: the lines of a backup, plain. The embedded store answers
 * nothing else meanwhile, so nobody who is slow to take the lines is waited for. Close the spool when done.
 */
export async function takeSnapshot(
  store: Store,
  { at, keyMark }: { at: Temporal.Instant; keyMark: string | null },
  folder: string,
): Promise<Spool> {
  const spool = await openSpool(folder)
  try {
    await store.db
      .transaction()
      .setIsolationLevel('repeatable read')
      .setAccessMode('read only')
      .execute(async trx => {
        const migrations = await findMigrations(trx)
        const head: Head = {
          bedwright: 'backup',
          format: FORMAT,
          version: VERSION,
          at: at.toString(),
          migrations,
          keyMark,
        }
        await writeLines(trx, head, spool)
      })
    return spool
  } catch (error) {
    await spool.close()
    throw error
  }
}

/** Tells whether a key is the one that a backup was made under. */
export function keyMarkOf(secretKey: string): string {
  return linkToken(secretKey, 'backup', 'mark of the key')
}

async function writeLines(trx: Transaction<Database>, head: Head, spool: Spool): Promise<void> {
  const hash = createHash('sha256')
  await write(spool, hash, `${JSON.stringify(head)}\n`)
  const rows: End['rows'] = {}
  for (const table of await findTables(trx)) {
    await write(spool, hash, `${JSON.stringify(['table', table])}\n`)
    rows[table] = 0
    for await (const batch of rowsOf(trx, table)) {
      rows[table] += batch.length
      await write(spool, hash, batch.map(row => `${row}\n`).join(''))
    }
  }
  const end: End = { rows, sequences: await findSequences(trx), sha256: hash.digest('hex') }
  await spool.write(`${JSON.stringify(['end', end])}\n`)
}

async function write(spool: Spool, hash: Hash, text: string): Promise<void> {
  hash.update(text)
  await spool.write(text)
}

// PostgreSQL's own JSON, passed on as text: read and written again, a numeric or a moment could lose digits. A batch is
// of so many rows as fit into a megabyte by the last one's: a row may be a number or a photo.
async function* rowsOf(trx: Transaction<Database>, table: string): AsyncGenerator<string[]> {
  await sql`declare every_row no scroll cursor for
    select row_to_json(one)::text as json from ${sql.table(table)} as one`.execute(trx)
  for (let asked = BATCH_ROWS.first; ; ) {
    const { rows } = await sql<{ json: string }>`fetch ${sql.lit(asked)} from every_row`.execute(trx)
    if (rows.length > 0) yield rows.map(row => row.json)
    if (rows.length < asked) break
    const characters = rows.reduce((sum, row) => sum + row.json.length, 0)
    const fitting = Math.floor((BATCH_CHARACTERS * rows.length) / characters)
    asked = Math.min(Math.max(fitting, 1), BATCH_ROWS.most)
  }
  await sql`close every_row`.execute(trx)
}
