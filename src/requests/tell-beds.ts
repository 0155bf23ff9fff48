import { isDeepStrictEqual } from 'node:util'
import { json } from '../db/json.ts'
import type { Deps } from '../deps.ts'
import type { StoredBeds } from '../estimate/understood/stored.ts'
import { Conflict } from '../http/errors.ts'
import { keepToldBeds } from '../places/beds.ts'
import { keepStops } from '../places/stops.ts'
import { requireIdInForce, requireRateTable } from '../rates/queries.ts'
import { recordHistory } from './history.ts'
import { lockQuoteRequest } from './stage.ts'
import { insertBallpark, workOutBeds } from './worked.ts'

/** Beds that a request is to have: those that the place had already by their ids, and where they are known from. */
export interface Telling extends StoredBeds {
  known?: (number | null)[]
  /** The number of the request that had them before. */
  before?: string
}

/**
 * Gives a request that was put in without beds its beds, and its ballpark by the rates in force. The same beds again
 * change nothing.
 * @throws {Refusal} 422 when they can't be read
 * @throws {Conflict} when it has other beds already, or is past that
 */
export async function tellBeds(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { told: wanted, understood, known = [], before }: Telling,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { number, stage } = await lockQuoteRequest(trx, quoteRequestId)
    const stored = await trx
      .selectFrom('quote_request')
      .select(['told', 'place_id'])
      .where('id', '=', quoteRequestId)
      .executeTakeFirstOrThrow()
    const told = await keepStops(trx, stored.place_id, wanted, now)
    if (isDeepStrictEqual(stored.told, told)) return
    if (stored.told.beds.length > 0) throw new Conflict('requests.beds-known', { number })
    if (stage !== 'new' && stage !== 'visit set') throw new Conflict('error.stage', { number })
    const rateTableId = await requireIdInForce(trx, now)
    const { body } = await requireRateTable(trx, rateTableId)
    const worked = workOutBeds({ told, understood }, body)
    await trx
      .updateTable('quote_request')
      .set({ told: json(told), understood: json(worked.understood) })
      .where('id', '=', quoteRequestId)
      .execute()
    await insertBallpark(trx, quoteRequestId, rateTableId, worked.ballpark, now)
    const beds = { requestId: quoteRequestId, placeId: stored.place_id, told, understood: worked.understood }
    await keepToldBeds(trx, beds, 'staff', now, known)
    const detail = { beds: String(told.beds.length), ...(before && { before }) }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'beds added', now, detail)
  })
}
