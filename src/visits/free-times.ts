import type { Business } from '../business/queries.ts'
import { PARTS, type Part } from '../days/start.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { type Wish, wishesOf } from './wished-hours.ts'

/** What says when there can be a visit at all. */
export type VisitRules = Pick<
  Business,
  'time_zone' | 'working_days' | 'visit_minutes' | 'visit_from_hour' | 'visit_to_hour'
> &
  Partial<RoomForVisits>

/** What room days have for visits, as far as something is known of them. */
export interface RoomForVisits {
  /** Days that are closed, or have no room left for a visit. */
  fullDays: ReadonlySet<string>
  /** The labor hours that are left of the halves of days, where the owner has work booked on halves. */
  halvesLeft: Map<string, Record<Part, Decimal>>
}

/** A visit that is set already. */
export interface VisitTaken {
  starts_at: string
  minutes: number
}

const WEEKS_AHEAD = 4
const STEP_MINUTES = 30
const A_DAY = 3

/** The labor hours that a visit takes of the morning and of the afternoon of its day, parted at noon where the business is. */
export function hoursInHalves(
  startsAt: Temporal.Instant,
  minutes: number,
  timeZone: string,
): Record<Part, Decimal> {
  const noon = startsAt.toZonedDateTimeISO(timeZone).withPlainTime('12:00').toInstant()
  const am = Decimal.max(0, Decimal.min(minutes, noon.since(startsAt).total('minutes')))
  // As the database rounds them.
  const hours = am.div(60).toDecimalPlaces(2)
  return { am: hours, pm: new Decimal(minutes).div(60).toDecimalPlaces(2).minus(hours) }
}

/** The half of its day in which a visit at a time would have no room; undefined where there is room. */
export function fullHalfAt(rules: VisitRules, at: Temporal.Instant): Part | undefined {
  const left = rules.halvesLeft?.get(dayOf(at, rules.time_zone))
  if (!left) return undefined
  const needed = hoursInHalves(at, rules.visit_minutes, rules.time_zone)
  return PARTS.find(part => needed[part].gt(0) && needed[part].gt(left[part]))
}

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

/** Every time of a day at which a visit can begin and has room; hours that the clocks skip are none. */
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
    const at = starts.toInstant()
    if (starts.toPlainDateTime().equals(wanted) && !fullHalfAt(rules, at)) found.push(at)
  }
  return found
}
