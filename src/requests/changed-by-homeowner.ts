import { requireBusiness } from '../business/queries.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { updatePhone } from '../places/queries.ts'
import { EnoughToday, LONGEST_NOTE, requireNotEnough } from './enough-today.ts'
import { recordHistory } from './history.ts'
import { type CarriedPhoto, keepPhotos } from './photos/keep.ts'
import { deletePhoto } from './photos/queries.ts'
import { lockQuoteRequest } from './stage.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const

/**
 * Changes the homeowner's phone, and tells the owner; the number that stands already changes nothing.
 * @throws {EnoughToday} when so much was sent today
 */
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
    await requireNotEnough(trx, id, now)
    await recordHistory(trx, id, BY_HOMEOWNER, 'phone changed', now)
    await putInOutbox(trx, deps.jobs, 'note-staff', 'owner', id, now)
  })
}

/**
 * Adds to the note, and tells the owner; the same words again, as by a second press, change nothing.
 * @throws {EnoughToday} when so much was sent today, or the note is as long as it may be
 */
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
    await requireNotEnough(trx, id, now)
    const whole = note === '' ? words : `${note}\n\n${words}`
    if (whole.length > LONGEST_NOTE) throw new EnoughToday()
    await trx.updateTable('quote_request').set({ note: whole }).where('id', '=', id).execute()
    await recordHistory(trx, id, BY_HOMEOWNER, 'note added', now, { note: words })
    await putInOutbox(trx, deps.jobs, 'note-staff', 'owner', id, now)
  })
}

/** Whether the homeowner may still add and remove photos: until somebody has seen the beds. */
export function mayChangePhotos(stage: Stage): boolean {
  return stage === 'new' || stage === 'visit set'
}

/**
 * Adds photos that are held, as many as a request may have, and tells the owner; gives how many that were. Those that
 * were added before, as by a second press, change nothing.
 * @throws {Conflict} when the beds were seen already
 * @throws {EnoughToday} when so much was sent today
 */
export async function addPhotos(deps: Deps, id: number, photos: CarriedPhoto[]): Promise<number> {
  const now = deps.now()
  return deps.db.transaction().execute(async trx => {
    const { stage } = await lockQuoteRequest(trx, id)
    if (!mayChangePhotos(stage)) throw new Conflict('photos.too-late')
    const { photos_each } = await requireBusiness(trx)
    const added = await keepPhotos(trx, id, photos, photos_each, now)
    if (added === 0) return 0
    await requireNotEnough(trx, id, now)
    await recordHistory(trx, id, BY_HOMEOWNER, 'photos added', now, { photos: String(added) })
    await putInOutbox(trx, deps.jobs, 'note-staff', 'owner', id, now)
    return added
  })
}

/**
 * Removes a photo for good; one that is gone already changes nothing.
 * @throws {Conflict} when the beds were seen already
 * @throws {EnoughToday} when so much was sent today
 */
export async function removePhoto(deps: Deps, id: number, photoId: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const { stage } = await lockQuoteRequest(trx, id)
    if (!mayChangePhotos(stage)) throw new Conflict('photos.too-late')
    if (!(await deletePhoto(trx, id, photoId))) return
    await requireNotEnough(trx, id, deps.now())
    await recordHistory(trx, id, BY_HOMEOWNER, 'photo removed', deps.now())
  })
}
