import type { Transaction } from 'kysely'
import { type Business, requireBusiness } from '../business/queries.ts'
import { findWorkDays, lockWorkDays } from '../days/queries.ts'
import { DAYS_AHEAD, onPart, roomsOf, type Share, shareOut, usualRoom } from '../days/room.ts'
import { startOf } from '../days/start.ts'
import { choosesWeek, mondayIn } from '../days/week.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import type { Key } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { addDays } from '../lib/dates.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { isDepositFirst } from '../payments/standing.ts'
import { earliestWork } from '../quotes/conditions.ts'
import { findNewestQuote, findQuote, type QuoteWithLines } from '../quotes/queries.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { type LockedRequest, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { type Accepted, accept } from './accept.ts'
import { findOffered, textToAccept } from './accepted-text.ts'
import { endPastHolds, findAnswered, heldUntil } from './day-asked.ts'
import {
  findNearChange,
  findNearChangeOfAccepted,
  keepNearChange,
  type NearChange,
  refuseWorse,
} from './near-price.ts'
import { findBooking, insertBooking } from './queries.ts'
import { DayGone, TextChanged } from './refusals.ts'
import { bookWeek, earliestInWeek } from './week.ts'

const HOMEOWNER: Doer = { kind: 'homeowner' }

/**
 * Accepts the newest revision of a request's quote under a typed name; a repeat changes nothing.
 * @throws {NewerRevision} when `revision` is not the newest
 * @throws {TextChanged} when what was read is not what would be accepted
 * @throws {NoLongerHolds} when the day until which it holds is past, where the business is
 * @throws {Conflict} when the request is not at a stage in which it can be accepted
 */
export async function acceptQuote(deps: Deps, quoteRequestId: number, accepted: Accepted): Promise<void> {
  const shown = await textToAccept(deps, quoteRequestId, accepted.language ?? 'en', accepted.picks)
  await deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, quoteRequestId)
    const isNew = await accept(trx, await requireBusiness(trx), request, { accepted, shown }, deps.now())
    if (!isNew) return
    await mailHomeowner(trx, deps, 'accepted', request.id, deps.now())
    await putInOutbox(trx, deps.jobs, 'accepted-staff', 'owner', request.id, deps.now())
  })
}

/** The labor hours taken of each day, and whether they are only held for who asked for them, or penciled in for a week. */
export interface Booked {
  days: Share[]
  as: 'booked' | 'asked' | 'week'
}

/** In which language a price was read, and the days beside which another one was shown (see nearSeen). */
export interface PriceSeen {
  language?: Language
  prices?: string
}

/**
 * Books the day, or the days from the first on, or a half of one, or a week (`start` as startText or weekText has it), for a
 * job whose quote is accepted; booking the same again changes nothing. `doer` is the homeowner, or somebody of the staff who rang them. Where the owner confirms days, a homeowner
 * asks for them only, and they are held. The database decides who gets the last room of a day.
 * @throws {DayGone} when there is no room, or no job can begin on that day
 * @throws {Conflict} when the quote is not accepted, or another day is booked
 */
export async function bookDay(
  deps: Deps,
  quoteRequestId: number,
  start: string,
  doer = HOMEOWNER,
  seen: PriceSeen = {},
): Promise<Booked> {
  await endPastHolds(deps)
  const { language = 'en', prices } = seen
  const isPriced = doer.kind === 'homeowner' && !(await findBooking(deps.db, quoteRequestId))
  const change = isPriced ? await findNearChangeOfAccepted(deps, quoteRequestId, start, language) : undefined
  if (isPriced && prices !== undefined) refuseWorse(prices, start, change)
  return deps.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, quoteRequestId)
    return book(trx, deps, await requireBusiness(trx), request, { start, doer, change })
  })
}

/**
 * Accepts and books in one go. When the day has gone in the meantime the acceptance alone is kept.
 * @throws what acceptQuote and bookDay throw
 */
export async function acceptAndBook(
  deps: Deps,
  quoteRequestId: number,
  accepted: Accepted,
  start: string,
): Promise<Booked> {
  await endPastHolds(deps)
  const language = accepted.language ?? 'en'
  const shown = await textToAccept(deps, quoteRequestId, language, accepted.picks)
  const offered = await findOffered(deps, quoteRequestId, accepted.picks)
  const change = await findNearChange(deps, quoteRequestId, offered, start, language)
  const { digest, ...plain } = accepted
  try {
    return await deps.db.transaction().execute(async trx => {
      const request = await lockQuoteRequest(trx, quoteRequestId)
      const business = await requireBusiness(trx)
      if (!(await isDone(trx, request.id, accepted.revision, start))) {
        await accept(trx, business, request, { accepted: change ? plain : accepted, shown }, deps.now())
        if (change && digest !== undefined && digest !== change.shown.digest) throw new TextChanged()
      }
      return book(trx, deps, business, request, { start, doer: HOMEOWNER, change })
    })
  } catch (error) {
    if (!(error instanceof DayGone)) throw error
    // What was accepted was the price of that very day.
    if (change) throw new DayGone('booking.day-gone')
    await acceptQuote(deps, quoteRequestId, accepted)
    throw error
  }
}

// A repeat may come after the discount of its day has made another revision.
async function isDone(trx: Transaction<Database>, id: number, revision: number, start: string) {
  const quote = await findQuote(trx, id, revision)
  return quote?.accepted_at != null && (await findBooking(trx, id))?.start === start
}

async function book(
  trx: Transaction<Database>,
  deps: Deps,
  business: Business,
  request: LockedRequest,
  { start, doer, change }: { start: string; doer: Doer; change?: NearChange | undefined },
): Promise<Booked> {
  const at = deps.now()
  const { day: firstDay, part } = startOf(start)
  const byHomeowner = doer.kind === 'homeowner'
  const standing = await findBooking(trx, request.id)
  const isHeld = standing?.held_until != null
  if (standing?.start === start && (byHomeowner || !isHeld))
    return { days: standing.days, as: standing.say_by ? 'week' : isHeld ? 'asked' : 'booked' }
  if (standing) throw refusalFor(doer, request, standingAs(standing))
  const quote = await findNewestQuote(trx, request.id)
  if (!quote?.accepted_at) throw refusalFor(doer, request, 'booking.not-accepted')
  // On the phone the owner may still hold a day.
  if (byHomeowner && (await isDepositFirst(trx, request.id, quote, business)))
    throw new Conflict('deposit.first')
  const monday = mondayIn(start)
  if (monday) return chooseWeek(trx, deps, business, request, { quote, monday, byHomeowner })
  const isOffered = byHomeowner && (await findAnswered(trx, request.id))?.offered === firstDay
  const asks = byHomeowner && business.day_choice === 'ask' && !isOffered
  await moveTo(trx, request, asks ? 'day asked' : 'booked', at)
  const earliest = earliestWork(business, quote, at, byHomeowner && !isOffered ? 'homeowner' : 'staff')
  if (firstDay < earliest || firstDay > addDays(earliest, DAYS_AHEAD)) throw new DayGone()
  if (byHomeowner && !isOffered && choosesWeek(business, quote.labor_hours)) throw new DayGone()
  const whole = await lockShares(trx, business, quote.labor_hours, firstDay, at)
  const days = onPart(whole, part)
  if (!days || (part && !business.half_days)) throw new DayGone()
  const priced = change ? await keepNearChange(trx, request.id, change, start, doer, at) : quote
  const booking = { quoteRequestId: request.id, quoteId: priced.id, days }
  await insertBooking(
    trx,
    asks ? { ...booking, heldUntil: heldUntil(at, firstDay, business.time_zone) } : booking,
    at,
  )
  const told = asks ? 'day-asked' : 'day-booked'
  await recordHistory(trx, request.id, doer, asks ? 'day asked' : 'day booked', at, { day: start })
  await mailHomeowner(trx, deps, told, request.id, at)
  if (byHomeowner) await putInOutbox(trx, deps.jobs, `${told}-staff`, 'owner', request.id, at)
  return { days, as: asks ? 'asked' : 'booked' }
}

async function chooseWeek(
  trx: Transaction<Database>,
  deps: Deps,
  business: Business,
  request: LockedRequest,
  { quote, monday, byHomeowner }: { quote: QuoteWithLines; monday: string; byHomeowner: boolean },
): Promise<Booked> {
  const at = deps.now()
  const earliest = earliestInWeek(business, quote, at)
  const isOffered = byHomeowner && choosesWeek(business, quote.labor_hours)
  if (!isOffered || monday < earliest || monday > addDays(earliest, DAYS_AHEAD))
    throw new DayGone('week.full-kept')
  await moveTo(trx, request, 'week chosen', at)
  const days = await bookWeek(trx, business, request, quote, monday, at)
  await recordHistory(trx, request.id, HOMEOWNER, 'week chosen', at, { week: monday })
  await mailHomeowner(trx, deps, 'week-chosen', request.id, at)
  await putInOutbox(trx, deps.jobs, 'week-chosen-staff', 'owner', request.id, at)
  return { days, as: 'week' }
}

function standingAs({ say_by, held_until }: { say_by: string | null; held_until: string | null }): Key {
  if (say_by) return 'week.waits'
  return held_until ? 'asked.waits' : 'booking.other-day-booked'
}

// The homeowner's sentences say "you" of the one who chooses.
function refusalFor(doer: Doer, { number }: LockedRequest, key: Key): Conflict {
  return doer.kind === 'staff' ? new Conflict('error.stage', { number }) : new Conflict(key)
}

async function lockShares(
  trx: Transaction<Database>,
  business: Business,
  laborHours: string,
  firstDay: string,
  at: Temporal.Instant,
): Promise<Share[]> {
  const planned = await planShares(trx, business, laborHours, firstDay, at)
  await lockWorkDays(
    trx,
    planned.map(share => share.day),
  )
  // Rooms may have been changed until they were locked; days that are not locked must not come in.
  const shares = await planShares(trx, business, laborHours, firstDay, at)
  if (shares.some((share, index) => share.day !== planned[index]?.day)) throw new DayGone()
  return shares
}

async function planShares(
  trx: Transaction<Database>,
  business: Business,
  laborHours: string,
  firstDay: string,
  at: Temporal.Instant,
): Promise<Share[]> {
  const roomOn = roomsOf(business, await findWorkDays(trx, firstDay, at))
  const shares = shareOut(laborHours, firstDay, usualRoom(business, firstDay), roomOn)
  if (!shares) throw new DayGone()
  return shares
}
