import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { TIME_ZONE } from './business.ts'

const FRIDAY = 5

/**
 * A moment told from today: '-9 14:30' is half past two, nine days ago; '+1 09:00' tomorrow at nine, or the next
 * weekday after; '-2h' two hours ago.
 */
export function momentOf(told: string, today: Temporal.Instant): Temporal.Instant {
  if (told.endsWith('h')) return today.add({ hours: Number(told.slice(0, -1)) })
  const [days, time] = told.split(' ') as [string, string]
  const day = addDays(dayOf(today, TIME_ZONE), Number(days))
  return Temporal.PlainDateTime.from(`${days.startsWith('+') ? weekdayFrom(day) : day}T${time}`)
    .toZonedDateTime(TIME_ZONE)
    .toInstant()
}

function weekdayFrom(day: string): string {
  return weekdayOf(day) > FRIDAY ? weekdayFrom(addDays(day, 1)) : day
}
