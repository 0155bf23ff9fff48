import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { findThings } from './queries.ts'

/**
 * Notes that a thing to take along is on the truck, or isn't after all; a repeat changes nothing.
 * @throws {NotFound} when no such thing is listed
 */
export async function setThing(
  deps: Deps,
  accountId: number,
  { day, thing, isOn }: { day: string; thing: string; isOn: boolean },
): Promise<void> {
  if (!isOn) {
    await deps.db.deleteFrom('thing_on_truck').where('day', '=', day).where('thing', '=', thing).execute()
    return
  }
  const all = await findThings(deps.db)
  const isListed = all.some(({ things }) => things.split('\n').some(line => line.trim() === thing))
  if (!isListed || thing === '') throw new NotFound()
  await deps.db
    .insertInto('thing_on_truck')
    .values({ day, thing, made_at: deps.now().toString(), made_by: accountId })
    .onConflict(conflict => conflict.doNothing())
    .execute()
}
