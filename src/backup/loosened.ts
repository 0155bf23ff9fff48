import { sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'

/**
 * Does something while rows may come in any order and no trigger acts on them: foreign keys are looked at when it is
 * done, and refuse then. Checks and unique indexes hold all the while. Needs no more than owning the tables.
 */
export async function whileLoosened(
  trx: Transaction<Database>,
  tables: string[],
  act: () => Promise<void>,
): Promise<void> {
  const { rows: keys } = await sql<{ table: string; name: string }>`
    select relname as table, conname as name from pg_constraint join pg_class on pg_class.oid = conrelid
    where contype = 'f' and not condeferrable and connamespace = current_schema()::regnamespace`.execute(trx)
  const alterKeys = async (to: string) => {
    for (const { table, name } of keys)
      await sql`alter table ${sql.table(table)} alter constraint ${sql.ref(name)} ${sql.raw(to)}`.execute(trx)
  }
  const alterTriggers = async (to: 'disable' | 'enable') => {
    for (const table of tables)
      await sql`alter table ${sql.table(table)} ${sql.raw(to)} trigger user`.execute(trx)
  }
  await alterKeys('deferrable')
  await alterTriggers('disable')
  await sql`set constraints all deferred`.execute(trx)
  await act()
  // A table can't be altered while a check of it is still to come.
  await sql`set constraints all immediate`.execute(trx)
  await alterTriggers('enable')
  await alterKeys('not deferrable')
}
