import type { Kysely } from 'kysely'
import { giveBackDay } from '../bookings/give-back-day.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { recordHistory } from '../requests/history.ts'
import { FOLLOWING, type LockedRequest, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endVisitAhead } from '../visits/queries.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const

/** All that the homeowner's own page tells of a quote request. */
export async function requireOwnRequest(db: Kysely<Database>, id: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .innerJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .select(['quote_request.id', 'quote_request.number', 'quote_request.stage', 'quote_request.told'])
    .select(['quote_request.arrived_at', 'quote_request.preferred_times', 'quote_request.note'])
    .select(['customer.name', 'customer.phone', 'customer.email'])
    .select(['place.street', 'place.postcode', 'place.gate', 'place.dog'])
    .select(['ballpark.rate_table_id', 'ballpark.result'])
    .where('quote_request.id', '=', id)
    .executeTakeFirstOrThrow()
}

/** Changes the homeowner's phone, and tells the owner; the number that stands already changes nothing. */
export async function changePhone(deps: Deps, id: number, phone: string): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, id)
    const changed = await trx
      .updateTable('customer')
      .set({ phone })
      .where('id', '=', eb => eb.selectFrom('quote_request').select('customer_id').where('id', '=', id))
      .where('phone', '<>', phone)
      .executeTakeFirst()
    if (changed.numUpdatedRows === 0n) return
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

/** Whether the homeowner may still call a request at this stage off. */
export function mayCallOff(stage: LockedRequest['stage']): boolean {
  return FOLLOWING[stage].includes('called off')
}

/**
 * Calls a quote request off for the homeowner: a visit ahead falls away, and a day booked is given back. When it is
 * called off already, nothing changes.
 * @throws {Conflict} when the work has begun or is over
 */
export async function callOff(deps: Deps, id: number, reason: string): Promise<void> {
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, id)
    if (request.stage === 'called off') return
    if (!mayCallOff(request.stage)) throw new Conflict('own.too-late-to-call-off')
    await moveTo(trx, request, 'called off', now)
    await endVisitAhead(trx, id, 'called_off_at', now)
    await giveBackDay(trx, id, now)
    await recordHistory(trx, id, BY_HOMEOWNER, 'called off', now, reason ? { reason } : {})
    await putInOutbox(trx, deps.jobs, 'called-off-staff', 'owner', id, now)
  })
}
