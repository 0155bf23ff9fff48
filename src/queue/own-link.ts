import type { Deps } from '../deps.ts'
import { shortDay } from '../language/dates-in-words.ts'
import { recordHistory } from '../requests/history.ts'
import { findStandingLink, replaceLink, revokeLink } from '../requests/links.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/** The standing link to a homeowner's own page; `ends` is its last day in words, '' as long as the job goes on. */
export interface OwnLink {
  id: number
  path: string
  address: string
  ends: string
}

export async function viewOwnLink(deps: Deps, quoteRequestId: number, zone: string): Promise<OwnLink | null> {
  const link = await findStandingLink(deps.db, deps.secretKey, 'own page', quoteRequestId, deps.now())
  if (!link) return null
  const { id, path, ends_at } = link
  return { id, path, address: deps.config.publicUrl + path, ends: ends_at ? shortDay(ends_at, zone) : '' }
}

/** Ends the link to a homeowner's own page; a repeat changes nothing. */
export async function endOwnLink(deps: Deps, accountId: number, quoteRequestId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    if (!(await findStandingLink(trx, deps.secretKey, 'own page', quoteRequestId, now))) return
    await revokeLink(trx, 'own page', quoteRequestId, now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'own link ended', now)
  })
}

/**
 * Makes a new link to a homeowner's own page in place of the one that stood when this was asked for, by its id; null for
 * none. Where another one stands by now, nothing changes: it is the one that a repeat made.
 */
export async function makeOwnLink(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  stood: number | null,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const standing = await findStandingLink(trx, deps.secretKey, 'own page', quoteRequestId, now)
    if ((standing?.id ?? null) !== stood) return
    await replaceLink(trx, deps.secretKey, 'own page', quoteRequestId, now)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'own link made', now)
  })
}
