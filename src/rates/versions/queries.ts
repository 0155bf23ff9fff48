import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../../db/schema.ts'

/** A version as it was made; begins and ends are the moments between which it was or will be in force. */
export interface VersionRow {
  version: number
  made_at: string
  made_by_name: string
  begins: string
  /** When a newer one took or will take its place; null while none does. */
  ends: string | null
  called_off_at: string | null
}

/** Versions from the newest on, those before one number where it is given. */
export async function findVersions(
  db: Kysely<Database>,
  most: number,
  before?: number,
): Promise<VersionRow[]> {
  return rowsOf(db)
    .$if(before !== undefined, rows => rows.where('version', '<', before!))
    .orderBy('version', 'desc')
    .limit(most)
    .execute()
}

/** The versions whose day is still to come and that weren't called off, the next first. */
export async function findToCome(db: Kysely<Database>, now: Temporal.Instant): Promise<VersionRow[]> {
  return rowsOf(db)
    .where('called_off_at', 'is', null)
    .where('begins', '>', now.toString())
    .orderBy('begins')
    .execute()
}

function rowsOf(db: Kysely<Database>) {
  const all = db
    .selectFrom('rate_table')
    .leftJoin('rate_table_called_off', 'rate_table_called_off.rate_table_id', 'rate_table.id')
    .innerJoin('account', 'account.id', 'rate_table.made_by')
    .select([
      'rate_table.version',
      'rate_table.made_at',
      'account.name as made_by_name',
      'rate_table_called_off.called_off_at',
      sql<string>`coalesce(rate_table.in_force_from, rate_table.made_at)`.as('begins'),
      // One that was called off takes nobody's place.
      sql<string | null>`min(case when called_off_at is null
        then coalesce(rate_table.in_force_from, rate_table.made_at) end)
        over (order by version desc rows between unbounded preceding and 1 preceding)`.as('ends'),
    ])
  return db.selectFrom(all.as('all')).selectAll()
}

/** One version among the others; undefined when there is none of that number. */
export async function findVersionRow(db: Kysely<Database>, version: number): Promise<VersionRow | undefined> {
  const [row] = await findVersions(db, 1, version + 1)
  return row?.version === version ? row : undefined
}

export async function insertCalledOff(
  trx: Transaction<Database>,
  row: { rate_table_id: number; called_off_at: string; called_off_by: number },
): Promise<boolean> {
  const inserted = await trx
    .insertInto('rate_table_called_off')
    .values(row)
    .onConflict(conflict => conflict.column('rate_table_id').doNothing())
    .returning('rate_table_id')
    .executeTakeFirst()
  return inserted !== undefined
}
