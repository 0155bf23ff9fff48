import { findByHand } from '../outbox/by-hand.ts'
import { type LetterDeps, writeLetter } from './letter.ts'
import { whyOvertaken } from './overtaken.ts'

/** Drops what waits to be passed on by hand and is no longer so, as it is dropped where it goes out by itself. */
export async function dropOvertaken(deps: LetterDeps): Promise<void> {
  for (const row of await findByHand(deps)) {
    if (await writeLetter(deps, row, { byHand: true })) continue
    await deps.db
      .updateTable('outbox')
      .set({ last_fault: await whyOvertaken(deps, row) })
      .where('id', '=', row.id)
      .where('sent_at', 'is', null)
      .execute()
  }
}
