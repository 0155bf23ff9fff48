import { addDays, dayOf } from '../lib/dates.ts'

const FURTHEST_AHEAD = 366

export type VisitReading =
  | { ok: true; startsAt: Temporal.Instant }
  | { ok: false; errors: Record<string, string> }

/** Reads a date 'YYYY-MM-DD' and a time 'HH:MM' as a moment in the business's time zone, from now to a year ahead. */
export function readVisit(
  typed: { date: string; time: string },
  timeZone: string,
  now: Temporal.Instant,
): VisitReading {
  const errors: Record<string, string> = {}
  const date = readDate(typed.date)
  const time = readTime(typed.time)
  if (!date) errors['visit.date'] = 'Give the day of the visit, as 2026-04-03.'
  if (!time) errors['visit.time'] = 'Give the time of the visit, as 14:30.'
  if (!date || !time) return { ok: false, errors }
  const wanted = date.toPlainDateTime(time)
  const starts = wanted.toZonedDateTime(timeZone)
  if (!starts.toPlainDateTime().equals(wanted))
    return fault('time', 'That hour does not exist on that day: the clocks go forward. Give another time.')
  if (Temporal.Instant.compare(starts.toInstant(), now) <= 0)
    return dayOf(now, timeZone) === date.toString()
      ? fault('time', 'That time has passed today. Give a later one.')
      : fault('date', 'That day has passed. Give one that is still to come.')
  if (date.toString() > addDays(dayOf(now, timeZone), FURTHEST_AHEAD))
    return fault('date', 'That is more than a year ahead. Is the year right?')
  return { ok: true, startsAt: starts.toInstant() }
}

function fault(name: 'date' | 'time', message: string): VisitReading {
  return { ok: false, errors: { [`visit.${name}`]: message } }
}

function readDate(typed: string): Temporal.PlainDate | null {
  if (!/^\d{4}-\d\d-\d\d$/.test(typed.trim())) return null
  return orNull(() => Temporal.PlainDate.from(typed.trim(), { overflow: 'reject' }))
}

function readTime(typed: string): Temporal.PlainTime | null {
  const found = /^(\d{1,2})[:.](\d\d)(?::\d\d)?\s*([ap])?\.?m?\.?$/i.exec(typed.trim())
  if (!found) return null
  const half = found[3]?.toLowerCase()
  if (half && !(Number(found[1]) >= 1 && Number(found[1]) <= 12)) return null
  const hour = half ? (Number(found[1]) % 12) + (half === 'p' ? 12 : 0) : Number(found[1])
  return orNull(() => Temporal.PlainTime.from({ hour, minute: Number(found[2]) }, { overflow: 'reject' }))
}

function orNull<T>(read: () => T): T | null {
  try {
    return read()
  } catch {
    return null
  }
}
