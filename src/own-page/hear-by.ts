import type { Business } from '../business/queries.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'

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
