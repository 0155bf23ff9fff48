import { join } from 'node:path'
import type { PGlite } from '@electric-sql/pglite'
import { type Dialect, Kysely, sql } from 'kysely'
import { countingWrites, WriteCount } from './counted-writes.ts'
import { openEmbedded } from './embedded.ts'
import { embeddedDialect } from './embedded-driver.ts'
import { lockFolder } from './lock.ts'
import { postgresDialect } from './postgres-driver.ts'
import { ConnectionPool, DEADLINES, type Deadlines } from './postgres-pool.ts'
import { PreparedStatements } from './prepared-statements.ts'
import type { Database } from './schema.ts'
import { Servers } from './servers.ts'

/** The database, whichever of the two it is. */
export interface Store {
  db: Kysely<Database>
  /** The same one for the work in the background, which waits longer for a connection than a page does. */
  patientDb: Kysely<Database>
  kind: 'embedded' | 'postgres'
  /** What was written by `db`, a number that only goes up; what `executeSql` does isn't counted. */
  writes(): number
  /** Runs one statement with values, or any number without, outside the transactions of `db`: what pg-boss needs. */
  executeSql(text: string, values?: unknown[]): Promise<{ rows: unknown[] }>
  /** How many connections there are to a server: used, free, and how many wait for one. */
  connections?(): { used: number; free: number; waiting: number }
  close(): Promise<void>
}

export interface StoreOptions {
  dataDir: string
  databaseUrl?: string
  /** Other hosts, maybe with a port, that the same database may be on: whichever takes writes is used. */
  databaseHosts?: string[]
  deadlines?: Deadlines
}

/**
 * Opens the PostgreSQL server at `databaseUrl`, or else the embedded store in `dataDir`, which it locks for this
 * process. Throws FolderInUse or StoreUnusable with a line for the person who started it.
 */
export async function openStore({
  dataDir,
  databaseUrl,
  databaseHosts = [],
  deadlines = DEADLINES,
}: StoreOptions): Promise<Store> {
  if (databaseUrl) {
    const servers = new Servers(databaseUrl, databaseHosts)
    return serverStore(new ConnectionPool(servers, deadlines), deadlines.acquire)
  }
  const lock = lockFolder(dataDir)
  try {
    const store = embeddedStore(await openEmbedded(join(dataDir, 'store')))
    return { ...store, close: () => store.close().finally(lock.release) }
  } catch (error) {
    lock.release()
    throw error
  }
}

/** A store over a PGlite that is already open; closing it closes the PGlite. */
export function embeddedStore(pglite: PGlite): Store {
  const count = new WriteCount()
  const statements = new PreparedStatements(pglite)
  const db = counted(embeddedDialect(statements), count)
  return {
    db,
    patientDb: db,
    writes: () => count.value,
    kind: 'embedded',
    // Holding Kysely's only connection keeps a text with its own begin and commit apart from other transactions.
    executeSql: (text, values) =>
      db.connection().execute(() => runOnPglite(pglite, statements, text, values)),
    close: async () => {
      await db.destroy()
      if (!pglite.closed) await pglite.close()
    },
  }
}

/**
 * Sweeps and measures the embedded store's tables, and ends what its log holds: nothing else does it there while it is open,
 * so it belongs in every night. Without the second, the log grows until it is closed, and a start after a kill reads all of it.
 */
export async function vacuum(store: Store): Promise<void> {
  if (store.kind !== 'embedded') return
  await sql`vacuum (analyze)`.execute(store.db)
  await sql`checkpoint`.execute(store.db)
}

function serverStore(pool: ConnectionPool, within: number): Store {
  const count = new WriteCount()
  const db = counted(postgresDialect(pool, within), count)
  const patientDb = counted(postgresDialect(pool), count)
  const close = async () => {
    await db.destroy()
    await patientDb.destroy()
    await pool.close()
  }
  const executeSql: Store['executeSql'] = (text, values) => pool.run(text, values)
  return {
    db,
    patientDb,
    writes: () => count.value,
    kind: 'postgres',
    executeSql,
    connections: () => pool.counts(),
    close,
  }
}

function counted(dialect: Dialect, count: WriteCount): Kysely<Database> {
  return new Kysely<Database>({ dialect: countingWrites(dialect, count) })
}

async function runOnPglite(
  pglite: PGlite,
  statements: PreparedStatements,
  text: string,
  values?: unknown[],
): Promise<{ rows: unknown[] }> {
  try {
    if (values?.length) return await statements.run(text, values)
    statements.forgetAfter(text)
    return { rows: (await pglite.exec(text)).flatMap(result => result.rows) }
  } catch (error) {
    await pglite.exec('rollback')
    throw error
  }
}
