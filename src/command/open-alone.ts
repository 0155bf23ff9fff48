import type { Config } from '../config.ts'
import { openStore, type Store } from '../db/open.ts'
import { DEADLINES } from '../db/postgres-pool.ts'
import { CommandFault } from './command.ts'
import { requireOwnFolder } from './own-folder.ts'

const HOUR = 60 * 60 * 1000

/**
 * Opens a store for work that takes long and that nobody else may write beside; close it when done.
 * @throws {CommandFault} when another Bedwright uses it
 */
export async function openAlone(config: Pick<Config, 'dataDir' | 'databaseUrl'>): Promise<Store> {
  if (!config.databaseUrl) requireOwnFolder(config.dataDir)
  const deadlines = { ...DEADLINES, acquire: DEADLINES.connect, query: HOUR }
  const store = await openStore({ ...config, deadlines })
  try {
    await requireAlone(store)
    return store
  } catch (error) {
    await store.close()
    throw error
  }
}

/** The embedded store's folder is locked anyway. */
async function requireAlone(store: Store): Promise<void> {
  if (store.kind === 'embedded') return
  const { rows } = await store.executeSql(`
    select from pg_stat_activity
    where application_name = 'bedwright' and datname = current_database() and pid <> pg_backend_pid()`)
  if (rows.length > 0)
    throw new CommandFault('Another Bedwright is connected to that database. Stop it first.')
}
