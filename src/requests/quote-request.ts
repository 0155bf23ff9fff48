import type { Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { SentAs } from '../db/schema/places.ts'
import type { Database } from '../db/schema.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import type { Told } from '../estimate/job/bed.ts'
import type { Language } from '../language/language.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { requireIdInForce, requireRateTable } from '../rates/queries.ts'
import { requireStanding } from '../rates/standing.ts'
import type { Contact } from './contact-form.ts'
import { type Doer, recordHistory } from './history.ts'
import { insertRequest } from './insert-request.ts'
import { findLinkPath, makeLink, pathOfLink } from './links.ts'
import { mailHomeowner } from './mail-homeowner.ts'
import { findMaybeJunkSent, SentMeanwhile, type Submitted } from './maybe-junk/queries.ts'
import { type CarriedPhoto, keepPhotos } from './photos/keep.ts'
import { findSubmitted, takeNumber } from './queries.ts'
import { contentHash } from './sent-before.ts'
import { insertBallpark, type WorkedBeds, workOutBeds } from './worked.ts'

/**
 * What a homeowner sends: the beds as told, and who and where. Either phone or email may be ''. `sentAs` says why there
 * are no beds; `photos` are held until then.
 */
export interface Sending extends Contact {
  submissionKey: string
  told: Told
  language: Language
  sentAs?: SentAs
  photos?: CarriedPhoto[]
}

/** What was understood of beds and their ballpark, and by which rates. */
export interface Worked extends WorkedBeds {
  rateTableId: number
}

export interface TakenIn {
  number: string
  /** The path of the homeowner's own page. */
  ownPath: string
  /** Whether the same submission had been sent before; then nothing was done now. */
  repeated: boolean
}

/** The same of a request that stands in the queue. */
export interface Sent extends TakenIn {
  id: number
}

/**
 * Takes in a quote request: who, where, the beds, its ballpark, the homeowner's own page and the mails about it,
 * all or none. The same content under the same submission key again gives the request that it made the first time;
 * under a key that somebody else has used it is a request like any other. `worked` is its ballpark, where that is known.
 * One that is put in by the staff, or says by `sentAs` why, may be without beds, and has no ballpark then.
 * @throws {SentMeanwhile} when it is held as maybe junk
 * @throws {Refusal} 503 before set-up, 422 when the beds can't be read or cost beyond all measure
 */
export async function sendQuoteRequest(
  deps: Deps,
  sending: Sending,
  worked?: Worked,
  doer: Doer = { kind: 'homeowner' },
): Promise<Sent> {
  const { submissionKey } = sending
  const submitted = { key: submissionKey, contentHash: contentHash(sending.told, sending) }
  const before = await findInQueue(deps, submitted)
  if (before) return before
  // Worked out before, so that nothing is held up meanwhile; almost always these rates are in force still.
  const isWithoutBeds =
    sending.told.beds.length === 0 && (doer.kind === 'staff' || sending.sentAs !== undefined)
  const expected = isWithoutBeds ? null : (worked ?? (await workOutStanding(deps, sending.told)))
  const now = deps.now()
  try {
    return await deps.db.transaction().execute(async trx => {
      const { time_zone, photos_each } = await requireBusiness(trx)
      const taken = await workOutInForce(trx, sending.told, expected, now)
      const understood = taken?.understood ?? null
      const number = await takeNumber(trx, now.toZonedDateTimeISO(time_zone).year)
      // The year is ours until the end: whatever holds the same as maybe junk did so before, or finds this one.
      if (doer.kind === 'homeowner' && (await findMaybeJunkSent(trx, submitted))) throw new SentMeanwhile()
      const standing = { sending, understood, number, submissionKey, contentHash: submitted.contentHash }
      const id = await insertRequest(trx, standing, doer, now)
      if (taken) await insertBallpark(trx, id, taken.rateTableId, taken.ballpark, now)
      await keepPhotos(trx, id, sending.photos ?? [], photos_each, now)
      const ownPath = await makeLink(trx, deps.secretKey, 'own page', id, now)
      await recordHistory(trx, id, doer, doer.kind === 'staff' ? 'put in' : 'sent', now)
      // Who phoned gets the link as a text from the page that follows.
      if (doer.kind !== 'staff' || sending.email !== '')
        await mailHomeowner(trx, deps, 'request-received', id, now)
      if (doer.kind !== 'staff') await putInOutbox(trx, deps.jobs, 'request-arrived', 'owner', id, now)
      return { id, number, ownPath, repeated: false }
    })
  } catch (error) {
    const first = isUniqueViolation(error) && (await findInQueue(deps, submitted))
    if (first) return first
    throw error
  }
}

async function workOutStanding(deps: Deps, told: Told): Promise<Worked> {
  const { rates } = await requireStanding(deps)
  return { rateTableId: rates.id, ...workOutBeds({ told, understood: null }, rates.body) }
}

/** Nothing where no beds are told yet. */
async function workOutInForce(
  trx: Transaction<Database>,
  told: Told,
  expected: Worked | null,
  now: Temporal.Instant,
): Promise<Worked | null> {
  if (!expected) return null
  const rateTableId = await requireIdInForce(trx, now)
  if (rateTableId === expected.rateTableId) return expected
  const { body } = await requireRateTable(trx, rateTableId)
  return { rateTableId, ...workOutBeds({ told, understood: null }, body) }
}

/** What a submission made, where it was sent before: known by its content, or by the number it was given. */
export async function findSent(deps: Deps, submitted: Submitted): Promise<TakenIn | undefined> {
  const { db, secretKey } = deps
  const held = await findMaybeJunkSent(db, submitted)
  if (!held) return findInQueue(deps, submitted)
  return { number: held.number, ownPath: pathOfLink(secretKey, 'own page', held.nonce), repeated: true }
}

async function findInQueue(deps: Deps, { key, ...of }: Submitted): Promise<Sent | undefined> {
  const row = await findSubmitted(deps.db, key, of)
  const ownPath = row && (await findLinkPath(deps.db, deps.secretKey, 'own page', row.id))
  return row && ownPath ? { ...row, ownPath, repeated: true } : undefined
}
