import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { type Settling, settleEnded } from '../payments/settle.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { FOLLOWING, type LockedRequest, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endVisitAhead } from '../visits/queries.ts'
import { giveBackDay } from './give-back-day.ts'

const BY_HOMEOWNER: Doer = { kind: 'homeowner' }

/** Whether a request at this stage may still be called off, by either side. */
export function mayCallOff(stage: LockedRequest['stage']): boolean {
  return FOLLOWING[stage].includes('called off')
}

/**
 * Calls a quote request off, for the homeowner or for the staff: a visit ahead falls away, and a day booked is given
 * back. The homeowner is told, and the staff where it wasn't them. `settling` says what becomes of a deposit that is held;
 * else that is asked later. When it is called off already, nothing else changes.
 * @throws {Conflict} when the work has begun or is over, or the deposit can't be settled so
 */
export async function callOff(
  deps: Deps,
  id: number,
  reason: string,
  doer = BY_HOMEOWNER,
  settling: Settling | null = null,
): Promise<void> {
  const now = deps.now()
  const byHomeowner = doer.kind === 'homeowner'
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, id)
    const settle = async () => {
      if (settling && doer.kind === 'staff') await settleEnded(trx, deps, request, doer.accountId, settling)
    }
    if (request.stage === 'called off') return settle()
    if (!mayCallOff(request.stage)) {
      if (byHomeowner) throw new Conflict('own.too-late-to-call-off')
      throw new Conflict('error.stage', { number: request.number })
    }
    await moveTo(trx, request, 'called off', now)
    await endVisitAhead(trx, id, 'called_off_at', now)
    await giveBackDay(trx, id, now)
    await recordHistory(trx, id, doer, 'called off', now, reason ? { reason } : {})
    await settle()
    await mailHomeowner(trx, deps, 'canceled', id, now)
    if (byHomeowner) await putInOutbox(trx, deps.jobs, 'called-off-staff', 'owner', id, now)
  })
}

/** Why the staff called a request off, '' where they said nothing; undefined where its homeowner did. */
export async function findWhyCalledOffByStaff(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<string | undefined> {
  const last = await db
    .selectFrom('history')
    .select(['by_kind', 'detail'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('verb', '=', 'called off')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  return last?.by_kind === 'staff' ? (last.detail.reason ?? '') : undefined
}
