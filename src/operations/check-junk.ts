import { MOST_KEPT } from '../requests/maybe-junk/hold.ts'
import { countMaybeJunk } from '../requests/maybe-junk/queries.ts'
import { type Check, good, type LookedAt, look } from './check.ts'

/** How much is held as maybe junk; a person may be among it. */
export async function checkJunk({ db }: LookedAt): Promise<Check> {
  const { held, junk } = await countMaybeJunk(db)
  const says = `${held} held as maybe junk, ${junk} noted as junk.`
  if (held === 0) return good('Junk', says)
  const todo = 'Look through them in the queue under “held as maybe junk”: a person may be among them.'
  if (held + junk < MOST_KEPT) return look('Junk', says, todo)
  return look('Junk', `${says} That’s as many as are kept, so the oldest go.`, todo)
}
