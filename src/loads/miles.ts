import type { Kysely } from 'kysely'
import type { MilesDrivenTable } from '../db/schema/days.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { seesCosts } from '../http/roles.ts'
import type { Account } from '../http/signed-in.ts'

/** How far somebody drove with a vehicle on a day: see MilesDrivenTable. `key` is that of the form. */
export type Driven = Pick<
  MilesDrivenTable,
  'key' | 'day' | 'vehicle' | 'odometer_out' | 'odometer_back' | 'distance' | 'unit' | 'words'
>

/** Notes how far somebody drove. The same form again changes nothing. */
export async function noteMiles({ db, now }: Deps, accountId: number, driven: Driven): Promise<void> {
  await db
    .insertInto('miles_driven')
    .values({ ...driven, made_at: now().toString(), made_by: accountId })
    .onConflict(conflict => conflict.column('key').doNothing())
    .execute()
}

/**
 * Takes back what was noted by mistake; a repeat changes nothing.
 * @throws {NotFound} when there is none, or it is somebody else's, which only the owner may take back
 */
export async function undoMiles(
  { db, now }: Deps,
  account: Pick<Account, 'id' | 'role'>,
  day: string,
  id: number,
): Promise<void> {
  const row = await db
    .selectFrom('miles_driven')
    .select('made_by')
    .where('id', '=', id)
    .where('day', '=', day)
    .executeTakeFirst()
  if (!row || (!seesCosts(account) && row.made_by !== account.id)) throw new NotFound()
  await db
    .updateTable('miles_driven')
    .set({ undone_at: now().toString(), undone_by: account.id })
    .where('id', '=', id)
    .where('undone_at', 'is', null)
    .execute()
}

/** What was driven on a day, in the order in which it was noted. */
export async function findMilesOfDay(db: Kysely<Database>, day: string) {
  return db
    .selectFrom('miles_driven')
    .innerJoin('account', 'account.id', 'miles_driven.made_by')
    .select(['miles_driven.id', 'vehicle', 'odometer_out', 'odometer_back', 'distance', 'unit', 'words'])
    .select(['miles_driven.made_by', 'account.name as by_name'])
    .where('day', '=', day)
    .where('undone_at', 'is', null)
    .orderBy('miles_driven.id')
    .execute()
}

/** The vehicles that were named last, the newest first. */
export async function findVehicles(db: Kysely<Database>): Promise<string[]> {
  const rows = await db
    .selectFrom('miles_driven')
    .select('vehicle')
    .where('undone_at', 'is', null)
    .groupBy('vehicle')
    .orderBy(eb => eb.fn.max('id'), 'desc')
    .limit(8)
    .execute()
  return rows.map(({ vehicle }) => vehicle)
}
