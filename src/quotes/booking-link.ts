import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { findLinkPath, findStandingLink, replaceLink, revokeLink } from '../requests/links.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { newestRevision } from './queries.ts'

/** Ends the booking link of a request, so that it opens nothing any more; a repeat changes nothing. */
export async function endBookingLink(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    if (!(await findLinkPath(trx, deps.secretKey, 'booking', quoteRequestId))) return
    await revokeLink(trx, 'booking', quoteRequestId, now)
    await revokeLink(trx, 'reading', quoteRequestId, now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'booking link ended', now)
  })
}

/**
 * Makes a new booking link in place of the one that stood when this was asked for, by its id, null for none; that opens
 * nothing any more. Where another one stands by now, nothing changes: it is the one that a repeat made. Left out, any is replaced.
 * @throws {Conflict} when there is no quote
 */
export async function makeBookingLink(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  stood?: number | null,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { number } = await lockQuoteRequest(trx, quoteRequestId)
    if ((await newestRevision(trx, quoteRequestId)) === 0) throw new Conflict('quote.none', { number })
    const standing = await findStandingLink(trx, deps.secretKey, 'booking', quoteRequestId, now)
    if (stood !== undefined && (standing?.id ?? null) !== stood) return
    await replaceLink(trx, deps.secretKey, 'booking', quoteRequestId, now)
    await replaceLink(trx, deps.secretKey, 'reading', quoteRequestId, now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'booking link made', now)
  })
}
