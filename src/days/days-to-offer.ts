import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { freeFirstDays } from './queries.ts'
import { earliestForStaff, startsOn } from './room.ts'
import { startInWords, startText } from './start.ts'

const DAYS_OFFERED = 20

/** The days that can be offered on the phone for a job of so many labor hours, as the options of a field. */
export async function daysToOffer(deps: Deps, business: Business, laborHours: string) {
  const from = earliestForStaff(business, deps.now())
  const days = await freeFirstDays(deps.db, business, laborHours, from, DAYS_OFFERED, deps.now())
  const starts = days.flatMap(day => startsOn(day, business, 'staff'))
  return starts.map(start => ({ value: startText(start), label: startInWords(start, 'en') }))
}
