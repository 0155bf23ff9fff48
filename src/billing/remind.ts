import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { findOwed } from '../payments/owed.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { findStandingBill } from './queries.ts'

const VERB = 'bill reminded'

/** When reminders of a request's bills went, in turn. */
export async function findReminders(db: Kysely<Database>, quoteRequestId: number): Promise<string[]> {
  const rows = await db
    .selectFrom('history')
    .select('at')
    .where('quote_request_id', '=', quoteRequestId)
    .where('verb', '=', VERB)
    .orderBy('id')
    .execute()
  return rows.map(({ at }) => at)
}

/**
 * Reminds of the bill that stands; `before` is how many reminders there were when the page was opened, so the same press
 * twice sends one.
 * @throws {Conflict} when nothing is owed
 */
export async function remindOfBill(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  before: number,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const sent = (await findReminders(trx, quoteRequestId)).length
    if (sent > before) return
    const bill = await findStandingBill(trx, quoteRequestId)
    if (!bill || !(await findOwed(trx, quoteRequestId)).gt(0)) throw new Conflict('bill.nothing-owed')
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, VERB, now, { number: bill.number })
    const once = `bill-reminder ${bill.id} ${sent + 1}`
    await mailHomeowner(trx, deps, 'bill-reminder', quoteRequestId, now, { once })
  })
}
