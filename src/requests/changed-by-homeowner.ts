import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { updatePhone } from '../places/queries.ts'
import { recordHistory } from './history.ts'
import { lockQuoteRequest } from './stage.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const

/** Changes the homeowner's phone, and tells the owner; the number that stands already changes nothing. */
export async function changePhone(deps: Deps, id: number, phone: string): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, id)
    const { country } = await requireBusiness(trx)
    const { customer_id } = await trx
      .selectFrom('quote_request')
      .select('customer_id')
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    if (!(await updatePhone(trx, customer_id, phone, country))) return
    await recordHistory(trx, id, BY_HOMEOWNER, 'phone changed', now)
    await putInOutbox(trx, deps.jobs, 'note-staff', 'owner', id, now)
  })
}

/** Adds to the note, and tells the owner; the same words again, as by a second press, change nothing. */
export async function addNote(deps: Deps, id: number, words: string): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, id)
    const { note } = await trx
      .selectFrom('quote_request')
      .select('note')
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    if (note === words || note.endsWith(`\n\n${words}`)) return
    await trx
      .updateTable('quote_request')
      .set({ note: note === '' ? words : `${note}\n\n${words}` })
      .where('id', '=', id)
      .execute()
    await recordHistory(trx, id, BY_HOMEOWNER, 'note added', now, { note: words })
    await putInOutbox(trx, deps.jobs, 'note-staff', 'owner', id, now)
  })
}
