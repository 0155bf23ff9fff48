import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { Decimal } from '../lib/decimal.ts'
import { findOnHandById, insertMove, lockOnHandById } from './queries.ts'

/** What somebody counted, and what the page said before. */
export interface Counted {
  seen: string
  units: string
  note: string
}

/**
 * Sets what is on hand to what was counted, by a move of the difference; counted the same before, it changes nothing.
 * @throws {NotFound} when there is no such pack
 * @throws {Conflict} when it changed since the page was opened
 */
export async function countOnHand(
  deps: Deps,
  accountId: number,
  id: number,
  { seen, units, note }: Counted,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = await lockOnHandById(trx, id)
    if (now === undefined) throw new NotFound()
    const difference = new Decimal(units).minus(now)
    if (difference.isZero()) return
    if (!new Decimal(seen).eq(now)) throw new Conflict('hand.changed', { units: new Decimal(now).toFixed() })
    const { moves } = (await findOnHandById(trx, id))!
    await insertMove(trx, {
      key: `count ${id} after ${moves}`,
      on_hand_id: id,
      kind: 'by hand',
      units: difference.toFixed(3),
      quote_request_id: null,
      note,
      made_at: deps.now().toString(),
      made_by: accountId,
    })
  })
}
