import type { Business } from '../business/queries.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { type Wish, wishesOf } from './wished-hours.ts'

/** What says when there can be a visit at all. */
export type VisitRules = Pick<
  Business,
  'time_zone' | 'working_days' | 'visit_minutes' | 'visit_from_hour' | 'visit_to_hour'
> & {
  /** Days that are closed, or have no room left for a visit. */
  fullDays?: ReadonlySet<string>
}

/** A visit that is set already. */
export interface VisitTaken {
  starts_at: string
  minutes: number
}

const WEEKS_AHEAD = 4
const STEP_MINUTES = 30
const A_DAY = 3

/** Whether a visit of so many minutes would overlap one of those that are set. */
export function overlapping<Taken extends VisitTaken>(
  taken: Taken[],
  startsAt: Temporal.Instant,
  minutes: number,
): Taken | undefined {
  const endsAt = startsAt.add({ minutes })
  return taken.find(visit => {
    const from = Temporal.Instant.from(visit.starts_at)
    const to = from.add({ minutes: visit.minutes })
    return Temporal.Instant.compare(from, endsAt) < 0 && Temporal.Instant.compare(startsAt, to) < 0
  })
}

/** Whether a time is on the hour or the half hour of a working day, within the hours of visits, and free. */
export function isFreeTime(rules: VisitRules, taken: VisitTaken[], at: Temporal.Instant): boolean {
  const day = dayOf(at, rules.time_zone)
  return timesOf(rules, day).some(time => time.equals(at)) && !overlapping(taken, at, rules.visit_minutes)
}

/**
 * Times that are free from a moment on, at most three a day and `count` in all, within four weeks; those that suit what
 * the homeowner wrote of good times come first. In the order of time within both.
 */
export function freeTimes(
  rules: VisitRules,
  taken: VisitTaken[],
  from: Temporal.Instant,
  { count, preferred = '' }: { count: number; preferred?: string },
): Temporal.Instant[] {
  const wish = wishesOf(preferred)
  const [suiting, others]: [Temporal.Instant[], Temporal.Instant[]] = [[], []]
  const first = dayOf(from, rules.time_zone)
  for (let ahead = 0; ahead < WEEKS_AHEAD * 7; ahead += 1) {
    const free = timesOf(rules, addDays(first, ahead)).filter(
      time => Temporal.Instant.compare(time, from) > 0 && !overlapping(taken, time, rules.visit_minutes),
    )
    const suits = wish ? free.filter(time => isWished(wish, time, rules.time_zone)) : []
    suiting.push(...spread(suits, rules))
    if (suits.length === 0) others.push(...spread(free, rules))
  }
  return [...suiting, ...others].slice(0, count)
}

// The first, the middle and the last of a day, none of them overlapping.
function spread(times: Temporal.Instant[], { visit_minutes: minutes }: VisitRules): Temporal.Instant[] {
  const nth = [0, Math.floor((times.length - 1) / 2), times.length - 1].slice(0, A_DAY)
  const picked = [...new Set(nth)].flatMap(index => times[index] ?? [])
  return picked.filter((time, index) => {
    const before = picked[index - 1]
    return !before || Temporal.Instant.compare(before.add({ minutes }), time) <= 0
  })
}

function isWished(wish: Wish, time: Temporal.Instant, timeZone: string): boolean {
  const local = time.toZonedDateTimeISO(timeZone)
  const hour = local.hour + local.minute / 60
  return hour >= wish.from && hour < wish.to && (!wish.weekdays || wish.weekdays.includes(local.dayOfWeek))
}

/** Every time of a day at which a visit can begin; hours that the clocks skip are none. */
function timesOf(rules: VisitRules, day: string): Temporal.Instant[] {
  if (!rules.working_days.includes(weekdayOf(day)) || rules.fullDays?.has(day)) return []
  const last = rules.visit_to_hour * 60 - rules.visit_minutes
  const found: Temporal.Instant[] = []
  for (let minute = rules.visit_from_hour * 60; minute <= last; minute += STEP_MINUTES) {
    const wanted = Temporal.PlainDate.from(day).toPlainDateTime({
      hour: Math.floor(minute / 60),
      minute: minute % 60,
    })
    const starts = wanted.toZonedDateTime(rules.time_zone)
    if (starts.toPlainDateTime().equals(wanted)) found.push(starts.toInstant())
  }
  return found
}
