import type { Deps } from '../deps.ts'
import { findHistory, recordHistory } from './history.ts'
import { lockQuoteRequest } from './stage.ts'

/** Writes a note of the owner's into a request's history; the same note twice in a row is one. */
export async function noteRequest(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  note: string,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    const [newest] = await findHistory(trx, quoteRequestId)
    if (newest?.verb === 'noted' && newest.by_kind === 'staff' && newest.detail.note === note) return
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'noted', deps.now(), { note })
  })
}
