import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { requireFinish, setToday } from './new-price.ts'
import { pricesOf } from './pack-prices.ts'
import { findNewestVersion, findVersion, findVersionBefore } from './queries.ts'

/** Whether a version is the newest still, and nobody was given a range or a price that rests on it. */
export async function mayTakeBack(db: Kysely<Database>, version: number): Promise<boolean> {
  const newest = await findNewestVersion(db)
  return newest?.version === version && !(await isPricedWith(db, newest.id))
}

/**
 * Takes a new price back: makes a version in which the finish is bought as before it, and nothing else is different.
 * Taken back twice, it is taken back once.
 * @throws {NotFound} when there is no such finish
 * @throws {Conflict} when something was priced with it, when it isn't a version with one before it, or when somebody
 *   else saved meanwhile
 */
export async function takeBack(deps: Deps, accountId: number, slug: string, version: number): Promise<void> {
  const made = await findVersion(deps.db, version)
  const before = await findVersionBefore(deps.db, version)
  if (!made || !before) throw new Conflict('rates.changed-meanwhile')
  if (await isPricedWith(deps.db, made.id)) throw new Conflict('rates.priced-already')
  const finish = requireFinish(before.body, slug)
  const prices = pricesOf(finish, before.body.units).map(({ name, each }) => [name, each])
  const said = { prices: Object.fromEntries(prices), soldOut: finish.soldOut }
  await setToday(deps, accountId, version, slug, said)
}

async function isPricedWith(db: Kysely<Database>, rateTableId: number): Promise<boolean> {
  const found = await db
    .selectNoFrom(eb => [
      eb.exists(eb.selectFrom('ballpark').select('id').where('rate_table_id', '=', rateTableId)).as('told'),
      eb.exists(eb.selectFrom('quote').select('id').where('rate_table_id', '=', rateTableId)).as('quoted'),
    ])
    .executeTakeFirstOrThrow()
  return Boolean(found.told || found.quoted)
}
