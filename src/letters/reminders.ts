import { workOnce } from '../bookings/messages.ts'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { type Choices, findChoices } from '../outbox/choices.ts'
import { writeDigest } from '../outbox/digest.ts'
import { TOO_LATE } from '../outbox/given-up.ts'
import type { HomeownerMessage } from '../outbox/kinds.ts'
import { quoteOnce } from '../quotes/messages.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { visitOnce } from '../visits/messages.ts'
import { findBookingsAhead, findPricesWaiting, findVisitsAhead } from './due.ts'
import { DIGEST_FROM, isWithin, momentOf, REMINDED } from './hours.ts'

/** For so many days a price is asked about late, as after the program was down. */
const ASKED_LATE = 3

/** A message that is due: about which request, and by what it is written once. */
interface Due {
  kind: HomeownerMessage
  quoteRequestId: number
  once: string
  isTooLate?: boolean
}

/**
 * Writes what is due by the clock where the business is: of the day before, of prices that wait, and the staff's summary.
 * For the worker, every quarter of an hour, in as many processes as there are: each is written once. A day before that
 * went by while nothing ran is written as dropped. Gives how many were due.
 */
export async function writeReminders(deps: Deps): Promise<number> {
  const business = await findBusiness(deps.db)
  if (!business) return 0
  const { time_zone: zone } = business
  const choices = await findChoices(deps.db)
  const due = [
    ...(await dueOfVisits(deps, choices, zone)),
    ...(await dueOfWork(deps, choices, zone)),
    ...(await dueOfPrices(deps, choices, zone)),
  ]
  for (const one of due) await write(deps, one)
  if (deps.now().toZonedDateTimeISO(zone).hour >= DIGEST_FROM) await writeDigest(deps, zone)
  return due.length
}

async function write(deps: Deps, { kind, quoteRequestId, once, isTooLate }: Due): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    const dropped = isTooLate ? TOO_LATE : undefined
    await mailHomeowner(trx, deps, kind, quoteRequestId, deps.now(), { once, dropped })
  })
}

async function dueOfVisits(deps: Deps, choices: Choices, zone: string): Promise<Due[]> {
  if (choices['visit-tomorrow']!.choice === 'off') return []
  const visits = await findVisitsAhead(deps.db, deps.now())
  return visits.flatMap(visit => {
    const day = dayOf(Temporal.Instant.from(visit.starts_at), zone)
    const as = dayBefore(deps.now(), zone, day, visit.made_at)
    const due = {
      kind: 'visit-tomorrow',
      quoteRequestId: visit.quote_request_id,
      once: visitOnce(visit.id),
    } as const
    return as === 'not due' ? [] : [{ ...due, isTooLate: as === 'too late' }]
  })
}

async function dueOfWork(deps: Deps, choices: Choices, zone: string): Promise<Due[]> {
  if (choices['work-tomorrow']!.choice === 'off') return []
  const today = dayOf(deps.now(), zone)
  const bookings = await findBookingsAhead(deps.db, today, addDays(today, 1))
  return bookings.flatMap(({ quote_request_id: quoteRequestId, first_day, made_at }) => {
    const as = dayBefore(deps.now(), zone, first_day, made_at)
    const due = { kind: 'work-tomorrow', quoteRequestId, once: workOnce(quoteRequestId, first_day) } as const
    return as === 'not due' ? [] : [{ ...due, isTooLate: as === 'too late' }]
  })
}

/** What was arranged after its reminder was due has just been told, and needs none. */
function dayBefore(
  now: Temporal.Instant,
  zone: string,
  day: string,
  madeAt: string,
): 'not due' | 'due' | 'too late' {
  const before = addDays(day, -1)
  const from = momentOf(before, REMINDED.from, zone)
  const isSoonEnough = Temporal.Instant.compare(madeAt, from) < 0
  if (!isSoonEnough || Temporal.Instant.compare(now, from) < 0) return 'not due'
  return Temporal.Instant.compare(now, momentOf(before, REMINDED.to, zone)) < 0 ? 'due' : 'too late'
}

async function dueOfPrices(deps: Deps, choices: Choices, zone: string): Promise<Due[]> {
  const [followUp, expiring] = [choices['follow-up']!, choices.expiring!]
  const isOn = followUp.choice !== 'off' || expiring.choice !== 'off'
  if (!isOn || !isWithin(deps.now(), zone, REMINDED)) return []
  const today = dayOf(deps.now(), zone)
  const due: Due[] = []
  for (const price of await findPricesWaiting(deps.db, today)) {
    const lastDays = addDays(price.holds_until, -(expiring.days ?? 0))
    const isExpiring = expiring.choice !== 'off' && today >= lastDays
    const toldOn = dayOf(Temporal.Instant.from(price.told_at), zone)
    const asked = addDays(toldOn, followUp.days ?? 0)
    const isUnanswered = today >= asked && today <= addDays(asked, ASKED_LATE)
    const of = (kind: 'expiring' | 'follow-up') => ({
      kind,
      quoteRequestId: price.quote_request_id,
      once: quoteOnce(kind, price.id),
    })
    if (isExpiring) {
      // A price that was told in its last days was told to be good through them.
      if (price.to_say_expiring && toldOn < lastDays) due.push(of('expiring'))
    } else if (followUp.choice !== 'off' && isUnanswered && price.to_follow_up) due.push(of('follow-up'))
  }
  return due
}
