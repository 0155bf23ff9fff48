import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { FOLLOWING, type LockedRequest, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endVisitAhead } from '../visits/queries.ts'
import { giveBackDay } from './give-back-day.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const

/** Whether the homeowner may still call a request at this stage off. */
export function mayCallOff(stage: LockedRequest['stage']): boolean {
  return FOLLOWING[stage].includes('called off')
}

/**
 * Calls a quote request off for the homeowner: a visit ahead falls away, and a day booked is given back. When it is
 * called off already, nothing changes.
 * @throws {Conflict} when the work has begun or is over
 */
export async function callOff(deps: Deps, id: number, reason: string): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, id)
    if (request.stage === 'called off') return
    if (!mayCallOff(request.stage)) throw new Conflict('own.too-late-to-call-off')
    await moveTo(trx, request, 'called off', now)
    await endVisitAhead(trx, id, 'called_off_at', now)
    await giveBackDay(trx, id, now)
    await recordHistory(trx, id, BY_HOMEOWNER, 'called off', now, reason ? { reason } : {})
    await mailHomeowner(trx, deps, 'canceled', id, now)
    await putInOutbox(trx, deps.jobs, 'called-off-staff', 'owner', id, now)
  })
}
