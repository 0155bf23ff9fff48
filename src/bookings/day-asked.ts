import type { Kysely, Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { freeFirstDays } from '../days/queries.ts'
import { startOf } from '../days/start.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { earliestWork } from '../quotes/conditions.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { type LockedRequest, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { giveBackDay } from './give-back-day.ts'
import { findBooking } from './queries.ts'
import { DayGone } from './refusals.ts'

/** How long a day that was asked for is held. */
const HELD = { hours: 48 }

/** Until when a day that is asked for now is held: no longer than until it begins, where the business is. */
export function heldUntil(at: Temporal.Instant, day: string, zone: string): string {
  const begins = Temporal.PlainDate.from(day).toZonedDateTime(zone).toInstant()
  const end = at.add(HELD)
  return (Temporal.Instant.compare(begins, end) < 0 ? begins : end).toString()
}

/** Whether a hold is over, whether or not its day was given back yet. */
export function isOver({ held_until }: { held_until: string | null }, now: Temporal.Instant): boolean {
  return held_until !== null && Temporal.Instant.compare(held_until, now) <= 0
}

/**
 * Books the day that a homeowner asked for, who is told; confirmed already, nothing changes.
 * @throws {Conflict} when another day is asked for than was shown, or none, as when the hold is over
 */
export async function confirmDay(deps: Deps, accountId: number, id: number, day: string): Promise<void> {
  await endPastHolds(deps)
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, id)
    const standing = await findBooking(trx, id)
    if (request.stage === 'booked' && standing?.start === day) return
    if (request.stage !== 'day asked' || standing?.start !== day) throw new Conflict('asked.gone')
    await moveTo(trx, request, 'booked', at)
    await trx
      .updateTable('booking')
      .set({ held_until: null })
      .where('quote_request_id', '=', id)
      .where('called_off_at', 'is', null)
      .execute()
    await recordHistory(trx, id, { kind: 'staff', accountId }, 'day booked', at, { day })
    await mailHomeowner(trx, deps, 'day-booked', id, at)
  })
}

/** Why a day that was asked for (see startText) can't be, and the day that the homeowner may have instead; either may be ''. */
export interface DayDeclined {
  day: string
  offered: string
  words: string
}

/**
 * Gives the day that a homeowner asked for back, who is told and chooses anew; a day offered instead is booked as soon
 * as it is chosen, if there is room for it then.
 * @throws {Conflict} when another day is asked for than was shown, or none
 * @throws {DayGone} when there is no room on the day offered
 */
export async function declineDay(
  deps: Deps,
  accountId: number,
  id: number,
  { day, offered, words }: DayDeclined,
): Promise<void> {
  await endPastHolds(deps)
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, id)
    const standing = await findBooking(trx, id)
    if (request.stage !== 'day asked' || standing?.start !== day) throw new Conflict('asked.gone')
    await release(trx, request, at)
    if (offered !== '' && (offered === startOf(day).day || !(await isFree(trx, id, offered, at))))
      throw new DayGone()
    const detail = { day, ...(offered && { offered }), ...(words && { words }) }
    await recordHistory(trx, id, { kind: 'staff', accountId }, 'day declined', at, detail)
    await mailHomeowner(trx, deps, 'day-declined', id, at)
  })
}

async function isFree(trx: Transaction<Database>, id: number, day: string, at: Temporal.Instant) {
  const business = await requireBusiness(trx)
  const quote = await findAcceptedQuote(trx, id)
  if (!quote || day < earliestWork(business, quote, at, 'staff')) return false
  const [first] = await freeFirstDays(trx, business, quote.labor_hours, day, 1, at)
  return first?.day === day
}

/**
 * Gives back every day that was held until now and not confirmed; each homeowner is told. For the worker, and for
 * whoever is about to take room. Gives how many there were.
 */
export async function endPastHolds(deps: Deps): Promise<number> {
  const past = await deps.db
    .selectFrom('booking')
    .select('quote_request_id')
    .where('called_off_at', 'is', null)
    .where('held_until', '<=', deps.now().toString())
    .orderBy('quote_request_id')
    .execute()
  let ended = 0
  for (const { quote_request_id: id } of past) if (await endHold(deps, id)) ended += 1
  return ended
}

async function endHold(deps: Deps, id: number): Promise<boolean> {
  return deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const request = await lockQuoteRequest(trx, id)
    const standing = await findBooking(trx, id)
    if (request.stage !== 'day asked' || !standing || !isOver(standing, at)) return false
    await release(trx, request, at)
    await recordHistory(trx, id, { kind: 'clock' }, 'day hold ended', at, { day: standing.start })
    await mailHomeowner(trx, deps, 'day-hold-ended', id, at)
    return true
  })
}

async function release(trx: Transaction<Database>, request: LockedRequest, at: Temporal.Instant) {
  await moveTo(trx, request, 'quoted', at)
  await giveBackDay(trx, request.id, at)
}

/** What became of the day that a homeowner asked for last, and which was offered instead; undefined where none was. */
export async function findAnswered(db: Kysely<Database>, quoteRequestId: number) {
  const last = await db
    .selectFrom('history')
    .select(['verb', 'detail'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('verb', 'in', ['day asked', 'day declined', 'day hold ended', 'day booked'])
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  if (last?.verb !== 'day declined' && last?.verb !== 'day hold ended') return undefined
  const { day = '', offered = '', words = '' } = last.detail
  return { isDeclined: last.verb === 'day declined', day, offered, words }
}
