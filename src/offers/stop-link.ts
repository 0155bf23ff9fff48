import type { Deps } from '../deps.ts'
import { linkToken, sameSecret } from '../lib/tokens.ts'
import { withdrawConsent } from '../places/consent.ts'
import { recordHistory } from '../requests/history.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const

/** Where whoever got a mail says that they want no more of its kind: made from the key and the message's id. */
export function stopPath(secretKey: string, outboxId: string): string {
  return `/offers-off/${outboxId}/${linkToken(secretKey, 'offers off', outboxId)}`
}

export function isStopLink(secretKey: string, outboxId: string, token: string): boolean {
  return sameSecret(token, linkToken(secretKey, 'offers off', outboxId))
}

/** Takes back the consent of whoever got this mail; a repeat changes nothing. */
export async function stopOffers(deps: Deps, outboxId: string, words: string): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const row = await trx
      .selectFrom('outbox')
      .innerJoin('quote_request', 'quote_request.id', 'outbox.quote_request_id')
      .select(['quote_request.id', 'quote_request.customer_id'])
      .where('outbox.id', '=', outboxId)
      .where('outbox.kind', '=', 'offer')
      .executeTakeFirst()
    if (!row) return
    const isNew = await withdrawConsent(trx, row.customer_id, 'mail', {
      at: deps.now(),
      doer: BY_HOMEOWNER,
      words,
    })
    if (isNew) await recordHistory(trx, row.id, BY_HOMEOWNER, 'offers ended', deps.now())
  })
}
