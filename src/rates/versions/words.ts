import { dayInWords } from '../../language/dates-in-words.ts'
import { dayOf } from '../../lib/dates.ts'
import type { VersionRow } from './queries.ts'

/** How a version stands at a moment: whether it will come into force, whether it can be called off, all of it in words. */
export interface Standing {
  waits: boolean
  mayCallOff: boolean
  words: string
}

/** Says when a version was, is or will be in force, by the days where the business is. */
export function standingOf(row: VersionRow, now: Temporal.Instant, timeZone: string): Standing {
  const { begins, ends, called_off_at } = row
  const day = (instant: string) => dayWithYear(instant, timeZone)
  const settled = (words: string): Standing => ({ waits: false, mayCallOff: false, words })
  if (called_off_at !== null) return settled(`canceled on ${day(called_off_at)}`)
  if (ends !== null && isBy(ends, Temporal.Instant.from(begins))) {
    if (isBy(ends, now)) return settled('never took effect: a newer one replaced it')
    // What would come before it waits itself, and may be called off.
    const words = `takes effect on ${day(begins)} only if you cancel the newer one, set for ${day(ends)}`
    return { waits: false, mayCallOff: true, words }
  }
  if (!isBy(begins, now)) return { waits: true, mayCallOff: true, words: `takes effect on ${day(begins)}` }
  if (ends === null) return settled(`in force since ${day(begins)}`)
  if (!isBy(ends, now)) return settled(`in force since ${day(begins)}, until ${day(ends)}`)
  const [first, last] = [day(begins), day(ends)]
  return settled(first === last ? `in force on ${first}` : `in force from ${first} to ${last}`)
}

function isBy(instant: string, moment: Temporal.Instant): boolean {
  return Temporal.Instant.compare(Temporal.Instant.from(instant), moment) <= 0
}

/** The day of a moment where the business is, in words. `instant` is ISO 8601. */
export function dayWithYear(instant: string, timeZone: string): string {
  return dayInWords(dayOf(Temporal.Instant.from(instant), timeZone), 'en', true)
}
