import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import type { VisitSeen } from './visit.ts'

const FURTHEST_AHEAD = 366

const TIMES = { least: 2, most: 3 }

/** Reads a moment as it stands in a form, such as 2026-03-09T20:30:00Z; undefined where it is none. */
export function readInstant(typed: string): Temporal.Instant | undefined {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?Z$/.test(typed)) return undefined
  try {
    return Temporal.Instant.from(typed)
  } catch {
    return undefined
  }
}

/** Reads two or three times still to come from the ticks `times[]`. */
export function readTimes(
  fields: FormFields,
  now: Temporal.Instant,
): FormReading<{ times: Temporal.Instant[] }> {
  const ticked = [...new Set(fields.ticks('times'))]
  const times = ticked.flatMap(typed => readInstant(typed) ?? [])
  if (ticked.length < TIMES.least || ticked.length > TIMES.most)
    fields.fault('times', 'Check two or three times.')
  const areAhead = times.every(time => isAhead(time, now))
  if (times.length < ticked.length || !areAhead) fields.fault('times', 'Check times that are still to come.')
  return fields.reading({ times })
}

function isAhead(time: Temporal.Instant, now: Temporal.Instant): boolean {
  const last = now.add({ hours: FURTHEST_AHEAD * 24 })
  return Temporal.Instant.compare(time, now) > 0 && Temporal.Instant.compare(time, last) <= 0
}

/**
 * Reads the time that was picked as `visit.free`, else `visit.date` and `visit.time` as a moment in the business's time
 * zone, from now to a year ahead; whether it is to be set although it overlaps another visit; and the visit that was
 * shown, as `visit.seen`.
 */
export function readVisit(
  fields: FormFields,
  timeZone: string,
  now: Temporal.Instant,
): FormReading<{ startsAt: Temporal.Instant } & VisitSeen> {
  const visit = fields.group('visit')
  const shown = {
    anyway: visit.tick('anyway'),
    seen: visit.has('seen') ? visit.carried('seen') : undefined,
  }
  const picked = visit.text('free')
  if (picked !== '') {
    const free = readInstant(picked)
    if (!free || !isAhead(free, now)) visit.fault('free', 'That time has passed. Pick another.')
    return fields.reading({ startsAt: free ?? now, ...shown })
  }
  const date = visit.day('date', 'Give the day of the visit, such as 2026-04-03.')
  const time = readTime(visit.text('time'))
  if (!time) visit.fault('time', 'Give the time of the visit, such as 14:30.')
  const startsAt = date && time ? readMoment(visit, date, time, timeZone, now) : now
  return fields.reading({ startsAt, ...shown })
}

function readMoment(
  visit: FormFields,
  date: string,
  time: Temporal.PlainTime,
  timeZone: string,
  now: Temporal.Instant,
): Temporal.Instant {
  const wanted = Temporal.PlainDate.from(date).toPlainDateTime(time)
  const starts = wanted.toZonedDateTime(timeZone)
  const today = dayOf(now, timeZone)
  const isPast = Temporal.Instant.compare(starts.toInstant(), now) <= 0
  if (!starts.toPlainDateTime().equals(wanted))
    visit.fault('time', 'The clocks skip that hour on that day. Give another time.')
  else if (isPast && today === date)
    visit.fault('time', 'That time has already passed today. Give a later one.')
  else if (isPast) visit.fault('date', 'That day has passed. Give a day still to come.')
  else if (date > addDays(today, FURTHEST_AHEAD))
    visit.fault('date', 'That’s more than a year ahead. Is the year right?')
  return starts.toInstant()
}

function readTime(typed: string): Temporal.PlainTime | null {
  const found = /^(\d{1,2})[:.](\d\d)(?::\d\d)?\s*([ap])?\.?m?\.?$/i.exec(typed.trim())
  if (!found) return null
  const half = found[3]?.toLowerCase()
  if (half && !(Number(found[1]) >= 1 && Number(found[1]) <= 12)) return null
  const hour = half ? (Number(found[1]) % 12) + (half === 'p' ? 12 : 0) : Number(found[1])
  const minute = Number(found[2])
  return hour < 24 && minute < 60 ? new Temporal.PlainTime(hour, minute) : null
}
