import type { Kysely } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { Conflict } from '../http/errors.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { fullHalfAt, overlapping } from './free-times.ts'
import { visitRules } from './full-days.ts'
import { findVisitsTaken } from './offered-times.ts'
import { findVisitAhead } from './queries.ts'

const HALVES = { am: 'morning', pm: 'afternoon' } as const

/** Something is in the way of a visit, which is theirs to know who set it: `words` say what, for the staff. */
export class Clash extends Conflict {
  readonly words: string

  constructor(words: string) {
    super('visits.gone')
    this.words = words
  }
}

/** What a visit at this time would clash with, in words for the staff; undefined where nothing is in the way. */
export async function findClash(
  db: Kysely<Database>,
  quoteRequestId: number,
  startsAt: Temporal.Instant,
  now: Temporal.Instant,
): Promise<string | undefined> {
  const business = await requireBusiness(db)
  const { time_zone: zone, visit_minutes: minutes } = business
  const clash = overlapping(await findVisitsTaken(db, startsAt, quoteRequestId), startsAt, minutes)
  if (clash)
    return `It overlaps the visit to ${clash.name} (${clash.number}), ${momentInWords(clash.starts_at, zone, 'en')}.`
  const day = dayOf(startsAt, zone)
  const own = await findVisitAhead(db, quoteRequestId)
  const rules = await visitRules(db, business, startsAt, { now, own })
  if (rules.fullDays.has(day)) return `${dayInWords(day, 'en')} is closed, or has no room left for a visit.`
  const half = fullHalfAt(rules, startsAt)
  return half && `The ${HALVES[half]} of ${dayInWords(day, 'en')} has no room left for a visit.`
}
