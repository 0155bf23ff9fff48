import type { Deps } from '../deps.ts'
import { BY_OWNER, isGivenUp } from '../outbox/given-up.ts'
import { putOn } from '../outbox/outbox.ts'
import { isTooOld } from './jobs.ts'

/** Notes that somebody of the staff passed a message on; one that is sent already stays as it is. */
export async function notePassedOn(deps: Deps, accountId: number, id: string): Promise<void> {
  await deps.db
    .updateTable('outbox')
    .set({ sent_at: deps.now().toString(), passed_on_by: accountId, last_fault: null })
    .where('id', '=', id)
    .where('sent_at', 'is', null)
    .execute()
}

/** Has a message not be sent; one that is sent already stays as it is. */
export async function stopMessage(deps: Deps, id: string): Promise<void> {
  await deps.db
    .updateTable('outbox')
    .set({ last_fault: BY_OWNER })
    .where('id', '=', id)
    .where('sent_at', 'is', null)
    .execute()
}

/** Puts a message on again that was given up or grew too old; one that is sent, or waits already, stays as it is. */
export async function tryAgain(deps: Deps, id: string): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    const row = await trx
      .selectFrom('outbox')
      .select(['way', 'sent_at', 'last_fault', 'tried_from'])
      .where('id', '=', id)
      .forUpdate()
      .executeTakeFirst()
    if (!row || row.sent_at || !(isGivenUp(row.last_fault) || isTooOld(row, now))) return
    await trx
      .updateTable('outbox')
      .set({ last_fault: null, tried_from: now.toString() })
      .where('id', '=', id)
      .execute()
    await putOn(trx, deps.jobs, id, row.way)
  })
}
