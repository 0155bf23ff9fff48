import { sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { findTables } from './tables.ts'

/** What a store that nobody has set up yet may hold: what tells its key, attempts to sign in, that nothing stands yet, and its backups. */
const BEFORE_SET_UP = ['key_check', 'sign_in_failure', 'standing_number', 'store_backup']

/** Something is in the store already; the message is one plain line. */
export class StoreNotEmpty extends Error {
  constructor(table: string) {
    super(
      `The store isn’t empty (there’s something in "${table}"), and a backup can only go into an empty one. Name another folder in DATA_DIR or another database in DATABASE_URL, or move the old one away.`,
    )
    this.name = 'StoreNotEmpty'
  }
}

/** Throws StoreNotEmpty unless the store is new, or was migrated and nothing else. */
export async function requireEmpty(trx: Transaction<Database>): Promise<void> {
  for (const table of await findTables(trx)) {
    if (BEFORE_SET_UP.includes(table)) continue
    const { rows } = await sql`select from ${sql.table(table)} limit 1`.execute(trx)
    if (rows.length > 0) throw new StoreNotEmpty(table)
  }
}

/** Takes away the tables of a store that is empty, so that it can be migrated anew, to an older state too. */
export async function dropTables(trx: Transaction<Database>): Promise<void> {
  const tables = await findTables(trx)
  const { rows: functions } = await sql<{ name: string }>`
    select oid::regprocedure::text as name from pg_proc
    where pronamespace = current_schema()::regnamespace
      and not exists (select from pg_depend where objid = pg_proc.oid and deptype = 'e')`.execute(trx)
  for (const table of [...tables, 'kysely_migration', 'kysely_migration_lock'])
    await sql`drop table if exists ${sql.table(table)} cascade`.execute(trx)
  for (const { name } of functions) await sql`drop function if exists ${sql.raw(name)} cascade`.execute(trx)
}
