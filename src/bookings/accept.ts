import type { Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import type { Language } from '../language/language.ts'
import { dayOf } from '../lib/dates.ts'
import { findFirmOfRequest, findOrderNumber, keepOrderNumber } from '../places/firms.ts'
import { findNewestQuote, isWithdrawn } from '../quotes/queries.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import type { LockedRequest } from '../requests/stage.ts'
import type { TextToAccept } from './accepted-text.ts'
import { fitDays } from './fit-days.ts'
import { keepPicked } from './keep-picked.ts'
import { insertAcceptance, insertAcceptedText, isDeclined } from './queries.ts'
import { NewerRevision, NoLongerHolds, TextChanged } from './refusals.ts'

/** What somebody accepts: the revision that was read, and the name typed under it. */
export interface Accepted {
  revision: number
  typedName: string
  /** In which language it was read; English unless told. */
  language?: Language
  /** Of the text that was read; what stands now counts where none is told. */
  digest?: string
  /** What was picked of its choices, in digits (see takenOf). */
  picks?: string
  /** Whose phone of the staff it was accepted on. */
  takenBy?: number
  /** The number that a firm has for the order. */
  orderNumber?: string
}

/**
 * Accepts the newest revision in the transaction of a locked request; of a job that is booked already that is a change
 * to it, and its days follow. False when the same revision had been accepted before.
 */
export async function accept(
  trx: Transaction<Database>,
  business: Business,
  request: LockedRequest,
  { accepted, shown }: { accepted: Accepted; shown: TextToAccept | undefined },
  at: Temporal.Instant,
): Promise<boolean> {
  const { revision, typedName, takenBy, orderNumber = '', picks = '' } = accepted
  const offered = await findNewestQuote(trx, request.id)
  if (!offered || !shown) throw new NotFound()
  if (offered.revision !== revision || shown.revision !== revision) throw new NewerRevision()
  if (offered.accepted_at && picks !== '' && offered.picked !== null && picks !== offered.picked)
    throw new Conflict('choose.taken')
  if (offered.accepted_at) return false
  if (await isWithdrawn(trx, offered.id)) throw new Conflict('change.withdrawn')
  // Its page shows it no more; whoever has that open still is told.
  if (await isDeclined(trx, offered.id)) throw new Conflict('change.declined')
  if (request.stage === 'lapsed' || offered.holds_until < dayOf(at, business.time_zone))
    throw new NoLongerHolds()
  if (request.stage !== 'quoted' && request.stage !== 'booked')
    throw new Conflict('error.stage', { number: request.number })
  if (accepted.digest !== undefined && accepted.digest !== shown.digest) throw new TextChanged()
  await requireOrderNumber(trx, request.id, orderNumber, at)
  const { quote, words: picked } = offered.choices
    ? await keepPicked(trx, offered, picks)
    : { quote: offered, words: '' }
  await insertAcceptance(trx, quote.id, typedName, at, takenBy ?? null)
  await insertAcceptedText(trx, quote.id, shown)
  const detail = {
    revision: String(revision),
    name: typedName,
    ...(takenBy ? { on: 'our phone' } : {}),
    ...(orderNumber && { order: orderNumber }),
    ...(picked && { picked }),
  }
  await recordHistory(trx, request.id, { kind: 'homeowner' }, 'accepted', at, detail)
  if (request.stage === 'booked') await followHours(trx, business, request, quote, at)
  return true
}

/** Keeps the number that was given; a firm that needs one can't accept without. */
async function requireOrderNumber(
  trx: Transaction<Database>,
  quoteRequestId: number,
  given: string,
  at: Temporal.Instant,
): Promise<void> {
  if (given !== '') await keepOrderNumber(trx, quoteRequestId, given, at)
  const firm = await findFirmOfRequest(trx, quoteRequestId)
  if (firm?.needs_order && (await findOrderNumber(trx, quoteRequestId)) === '')
    throw new Conflict('booking.order-missing')
}

async function followHours(
  trx: Transaction<Database>,
  business: Business,
  request: LockedRequest,
  quote: { id: number; labor_hours: string },
  at: Temporal.Instant,
): Promise<void> {
  const clock: Doer = { kind: 'clock' }
  const fits = await fitDays(trx, business, request.id, quote, at)
  if (!fits) await recordHistory(trx, request.id, clock, 'day too full', at, { hours: quote.labor_hours })
}
