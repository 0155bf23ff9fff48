import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { clearUnsuited, isUnsuited, markUnsuited } from '../requests/unsuited.ts'
import { findBooking } from './queries.ts'

/**
 * The homeowner says that the day of the work doesn't suit: the request stands under Call until the work is moved, or
 * the staff say that it stays. A repeat changes nothing.
 * @throws {Conflict} when the work begins on another day than was shown, or is not booked
 */
export async function sayDayUnsuited(
  deps: Deps,
  quoteRequestId: number,
  said: { from: string; words: string },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const standing = await findBooking(trx, request.id)
    if (!standing || request.stage !== 'booked') throw new Conflict('moves.not-booked')
    if (standing.start !== said.from) throw new Conflict('moves.other-day')
    const isNew = await markUnsuited(trx, request.id, at)
    if (!isNew) return
    const detail = { day: said.from, words: said.words }
    await recordHistory(trx, request.id, { kind: 'homeowner' }, 'day unsuited', at, detail)
    await putInOutbox(trx, deps.jobs, 'unsuited-staff', 'owner', request.id, at)
  })
}

/** Says after a call that the day, or the time of the visit, stays as it is; a repeat changes nothing. */
export async function keepAsSet(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    if (!(await isUnsuited(trx, quoteRequestId))) return
    await clearUnsuited(trx, quoteRequestId)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'kept as set', deps.now())
  })
}
