import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endVisitAhead } from '../visits/queries.ts'

/** Why a request is turned down: homeowners read a sentence for each but the last, which needs words of its own. */
export const TURNED_DOWN_FOR = ['far', 'full', 'kind', 'other'] as const

/** What the homeowner is told: a reason, and the contractor's own words, or ''. */
export interface WhyTurnedDown {
  reason: (typeof TURNED_DOWN_FOR)[number]
  words: string
}

/**
 * Takes a request off the list because the contractor can't do it; a visit ahead is called off, and the homeowner is
 * told kindly. A repeat changes nothing.
 * @throws {Conflict} when there is a quote already, or the request has ended
 */
export async function cannotDo(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  why: WhyTurnedDown,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage === "can't do") return
    await moveTo(trx, request, "can't do", now)
    await endVisitAhead(trx, quoteRequestId, 'called_off_at', now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, "can't do", now, { ...why })
    await mailHomeowner(trx, deps, 'turned-down', quoteRequestId, now)
  })
}

/**
 * Takes that back: the request waits for its price again where it was measured, else for a call. Whoever was told by
 * mail is told of this too. A repeat changes nothing.
 * @throws {Conflict} when the request was not turned down
 */
export async function takeBackCannotDo(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { stage, number } = await lockQuoteRequest(trx, quoteRequestId)
    const taken = await findVerb(trx, quoteRequestId, ["can't do", 'taken back'])
    if (taken?.verb === 'taken back') return
    if (stage !== "can't do") throw new Conflict('error.stage', { number })
    await trx
      .updateTable('quote_request')
      .set(eb => ({
        stage: eb
          .case()
          .when('measured', 'is', null)
          .then('new' as const)
          .else('measured' as const)
          .end(),
        stage_at: now.toString(),
      }))
      .where('id', '=', quoteRequestId)
      .execute()
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'taken back', now)
    await mailHomeowner(trx, deps, 'taken-back', quoteRequestId, now)
  })
}

/** What was said when a request was turned down last; `reason` is as it was written where that was before there were any to pick. */
export async function findWhyTurnedDown(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<WhyTurnedDown | null> {
  const said = (await findVerb(db, quoteRequestId, ["can't do"]))?.detail
  const reason = TURNED_DOWN_FOR.find(one => one === said?.reason)
  return reason ? { reason, words: said?.words ?? '' } : null
}

async function findVerb(db: Kysely<Database>, quoteRequestId: number, verbs: string[]) {
  return db
    .selectFrom('history')
    .select(['verb', 'detail'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('verb', 'in', verbs)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
}
