import type { Deps } from '../deps.ts'
import { recordHistory } from './history.ts'
import { mailHomeowner } from './mail-homeowner.ts'
import { lockQuoteRequest } from './stage.ts'

/**
 * Keeps that whoever reads what is mailed to a request's address said that it is theirs, and mails them what was sent
 * in; said again, or where there is no address, it changes nothing.
 */
export async function confirmAddress(deps: Deps, quoteRequestId: number): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    const confirmed = await trx
      .updateTable('customer')
      .set({ email_confirmed_at: now.toString() })
      .where('id', '=', eb =>
        eb.selectFrom('quote_request').select('customer_id').where('id', '=', quoteRequestId),
      )
      .where('email', '<>', '')
      .where('email_confirmed_at', 'is', null)
      .executeTakeFirst()
    if (confirmed.numUpdatedRows === 0n) return
    await recordHistory(trx, quoteRequestId, { kind: 'homeowner' }, 'address confirmed', now)
    await mailHomeowner(trx, deps, 'receipt', quoteRequestId, now)
  })
}
