import { dayInWords, dayOf } from '../../lib/dates.ts'
import type { VersionRow } from './queries.ts'

/** How a version stands at a moment: whether it waits for its day, and all of it in words. */
export interface Standing {
  waits: boolean
  words: string
}

/** Says when a version was, is or will be in force, by the days where the business is. */
export function standingOf(row: VersionRow, now: Temporal.Instant, timeZone: string): Standing {
  const day = (instant: string) => dayWithYear(instant, timeZone)
  const isPast = (instant: string) => Temporal.Instant.compare(Temporal.Instant.from(instant), now) <= 0
  const { begins, ends, called_off_at } = row
  if (called_off_at !== null) return { waits: false, words: `called off on ${day(called_off_at)}` }
  if (
    ends !== null &&
    Temporal.Instant.compare(Temporal.Instant.from(ends), Temporal.Instant.from(begins)) <= 0
  )
    return { waits: false, words: 'never came into force: a newer one took its place' }
  if (!isPast(begins)) return { waits: true, words: `waits: in force from ${day(begins)}` }
  if (ends === null) return { waits: false, words: `in force since ${day(begins)}` }
  if (!isPast(ends)) return { waits: false, words: `in force since ${day(begins)}, until ${day(ends)}` }
  const [first, last] = [day(begins), day(ends)]
  return {
    waits: false,
    words: first === last ? `in force on ${first}` : `in force from ${first} to ${last}`,
  }
}

/** The day of a moment where the business is, in words. `instant` is ISO 8601. */
export function dayWithYear(instant: string, timeZone: string): string {
  return dayInWords(dayOf(Temporal.Instant.from(instant), timeZone), 'en', true)
}
