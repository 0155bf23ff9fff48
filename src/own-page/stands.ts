import { findWhyCalledOffByStaff } from '../bookings/call-off.ts'
import { findWhyTurnedDown } from '../bookings/cannot-do.ts'
import { isOver } from '../bookings/day-asked.ts'
import { findBooking } from '../bookings/queries.ts'
import { weekOf } from '../bookings/week-words.ts'
import type { Business } from '../business/queries.ts'
import { startInWords } from '../days/start.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { type Key, t } from '../language/catalogue.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { findOwed } from '../payments/owed.ts'
import { findNewestQuote } from '../quotes/queries.ts'
import { findVisitAhead } from '../visits/queries.ts'

/** Where it stands, at the stages that say so by themselves. */
const STANDS: Record<
  Exclude<Stage, 'new' | 'visit set' | 'quoted' | 'day asked' | 'week chosen' | 'booked'>,
  Key
> = {
  measured: 'own.stage-measured',
  'part done': 'own.stage-part-done',
  done: 'own.stage-done',
  billed: 'own.stage-billed',
  paid: 'own.stage-paid',
  'called off': 'own.stage-called-off',
  'not taken': 'own.stage-not-taken',
  "can't do": 'own.stage-can-t-do',
  lapsed: 'own.stage-lapsed',
}

/** Where a request stands, in a sentence or two for its homeowner. */
export async function standsInWords(
  deps: Deps,
  business: Business,
  request: { id: number; stage: Stage; arrived_at: string },
  language: Language,
): Promise<string> {
  const { stage, id } = request
  const zone = business.time_zone
  if (stage === 'new') {
    const day = hearBy(business, request.arrived_at)
    const late = dayOf(deps.now(), zone) > day
    return t(language, late ? 'own.stage-new-late' : 'own.stage-new', { day: dayInWords(day, language) })
  }
  if (stage === 'visit set') {
    const visit = await findVisitAhead(deps.db, id)
    return visit
      ? t(language, 'own.stage-visit-set', { when: momentInWords(visit.starts_at, zone, language) })
      : t(language, 'own.stage-on-hold')
  }
  if (stage === 'day asked') return askedInWords(deps, zone, id, language)
  if (stage === 'week chosen') return weekInWords(deps, business, id, language)
  if (stage === 'quoted') {
    const quote = await findNewestQuote(deps.db, id)
    return t(language, quote?.accepted_at ? 'own.stage-accepted' : 'own.stage-quoted')
  }
  if (stage === 'booked') {
    const booking = await findBooking(deps.db, id)
    return booking
      ? t(language, 'own.stage-booked', { day: startInWords(booking.days[0]!, language) })
      : t(language, 'own.stage-on-hold')
  }
  if (stage === 'billed' && (await findOwed(deps.db, id)).lt(0)) return t(language, 'own.stage-billed-over')
  if (stage === "can't do") return turnedDownInWords(deps, id, language)
  const why = stage === 'called off' ? await findWhyCalledOffByStaff(deps.db, id) : undefined
  if (why !== undefined) return [t(language, 'moves.stage-canceled-by-us'), why].filter(Boolean).join(' ')
  return t(language, STANDS[stage])
}

async function askedInWords(deps: Deps, zone: string, id: number, language: Language): Promise<string> {
  const asked = await findBooking(deps.db, id)
  if (!asked?.held_until || isOver(asked, deps.now())) return t(language, 'own.stage-accepted')
  const until = momentInWords(asked.held_until, zone, language)
  return t(language, 'own.stage-day-asked', { day: startInWords(asked.days[0]!, language), until })
}

async function weekInWords(deps: Deps, business: Business, id: number, language: Language): Promise<string> {
  const booking = await findBooking(deps.db, id)
  const week = weekOf(booking, language)
  if (!booking?.say_by || !week) return t(language, 'own.stage-on-hold')
  const isLate = booking.say_by < dayOf(deps.now(), business.time_zone)
  return t(language, isLate ? 'week.own-late' : 'week.own', { week: week.words, day: week.sayBy })
}

async function turnedDownInWords(deps: Deps, id: number, language: Language): Promise<string> {
  const why = await findWhyTurnedDown(deps.db, id)
  const reason = why && why.reason !== 'other' ? t(language, `sorry.${why.reason}`) : ''
  return [t(language, STANDS["can't do"]), reason, why?.words].filter(Boolean).join(' ')
}

/** The day by which the business answers what arrived then: so many of its working days later, where it is. */
export function hearBy(
  business: Pick<Business, 'time_zone' | 'answer_within_days' | 'working_days'>,
  arrivedAt: string,
): string {
  let day = dayOf(Temporal.Instant.from(arrivedAt), business.time_zone)
  for (let left = business.answer_within_days; left > 0; ) {
    day = addDays(day, 1)
    if (business.working_days.includes(weekdayOf(day))) left -= 1
  }
  return day
}
