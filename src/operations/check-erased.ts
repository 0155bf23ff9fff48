import { findToErase, tellHeld } from '../privacy/erase-again.ts'
import { type Check, good, type LookedAt, wrong } from './check.ts'

/** Whether everybody who was erased is gone, in a store that was restored from before too. */
export async function checkErased({ config, db }: LookedAt): Promise<Check> {
  const waiting = await findToErase(db, config.dataDir)
  if (waiting.length === 0) return good('Erased people', 'Nobody who was erased is here again.')
  return wrong(
    'Erased people',
    waiting.map(tellHeld).join(' '),
    'Settle that, then restart Bedwright, or erase them on their page.',
  )
}
