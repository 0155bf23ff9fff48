import { type Kysely, sql } from 'kysely'
import { type Migration, Migrator } from 'kysely/migration'
import { migrations } from '../../migrations/list.ts'
import { openStore, type Store, type StoreOptions } from './open.ts'
import { DEADLINES } from './postgres-pool.ts'
import type { Database } from './schema.ts'

/** The store has been migrated by a later Bedwright; the message is one plain line. */
export class StoreIsNewer extends Error {
  constructor(name: string) {
    super(
      `The store was last used by a newer Bedwright (it has the change "${name}", unknown here). Start that version, or restore a backup made by this one.`,
    )
    this.name = 'StoreIsNewer'
  }
}

/**
 * Opens the store and brings its tables up to date; before an embedded one that is in use is changed, `saveFirst` has it
 * as it was. Throws StoreIsNewer, and what `openStore` throws.
 */
export async function openMigratedStore(
  options: StoreOptions,
  saveFirst: (store: Store) => Promise<void> = async () => {},
): Promise<Store> {
  if (options.databaseUrl) {
    // Waiting for another process that is migrating may take as long as its migration does.
    const patient = await openStore({
      ...options,
      deadlines: { ...DEADLINES, acquire: DEADLINES.connect, query: HOUR },
    })
    await migrate(patient).finally(patient.close)
    return openStore(options)
  }
  const store = await openStore(options)
  try {
    const had = await findMigrations(store.db)
    refuseNewer(had)
    if (had.length > 0 && !isUpToDate(had)) await saveFirst(store)
    await migrate(store)
    return store
  } catch (error) {
    await store.close()
    throw error
  }
}

/**
 * Runs the migrations that a store hasn't had, all or none, under Kysely's lock; gives their names. Inside a
 * transaction they are part of that.
 */
export async function migrate(
  { db }: Pick<Store, 'db'>,
  list: Record<string, Migration> = migrations,
): Promise<string[]> {
  refuseNewer(await findMigrations(db), list)
  const migrator = new Migrator({ db, provider: { getMigrations: async () => list } })
  const { error, results = [] } = await migrator.migrateToLatest()
  if (error) throw error
  return results.map(result => result.migrationName)
}

/** The names of the migrations that a store has had, in their order; none when it is new. */
export async function findMigrations(db: Kysely<Database>): Promise<string[]> {
  const table = await sql<{
    there: boolean
  }>`select to_regclass('kysely_migration') is not null as there`.execute(db)
  if (!table.rows[0]?.there) return []
  const had = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(db)
  return had.rows.map(({ name }) => name)
}

/** Throws StoreIsNewer when one of these migrations isn't known here. */
export function refuseNewer(had: string[], list: Record<string, Migration> = migrations): void {
  const unknown = had.find(name => !(name in list))
  if (unknown) throw new StoreIsNewer(unknown)
}

/** Whether these are all the migrations that there are. */
export function isUpToDate(had: string[]): boolean {
  return Object.keys(migrations).every(name => had.includes(name))
}

const HOUR = 60 * 60 * 1000
