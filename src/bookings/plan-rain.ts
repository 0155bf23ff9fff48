import {
  haveRoom,
  onPart,
  type RoomRules,
  roomsFrom,
  type Share,
  shareOut,
  usualRoom,
  type WorkDayRow,
  withoutShares,
} from '../days/room.ts'
import { addDays } from '../lib/dates.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'

type Rules = RoomRules

/** A job as it lies on the days; `stays` are its shares before the day that rains, `rest` is what is moved. */
export interface RainJob {
  bookingId: number
  stays: Share[]
  rest: Share[]
}

/** Where a job's rest is to begin; null where it stays as it is. */
export interface RainChoice {
  bookingId: number
  to: string | null
}

/** What one rest takes of which days; undefined where there is no room for it. */
export interface RainPlan {
  job: RainJob
  shares: Share[] | undefined
}

const AHEAD = 120
const MAKEUP_WITHIN = 21
const MOST_DAYS = 30

/** How the chosen rests lie, one after the other in the order of the jobs: each counts what those before it took. */
export function planRain(
  business: Rules,
  rows: WorkDayRow[],
  jobs: RainJob[],
  choices: RainChoice[],
): RainPlan[] {
  const moving = jobs.flatMap(job => {
    const to = choices.find(({ bookingId }) => bookingId === job.bookingId)?.to
    return to ? [{ job, to }] : []
  })
  let left = withoutShares(
    rows,
    moving.flatMap(({ job }) => job.rest),
  )
  return moving.map(({ job, to }) => {
    const shares = sharesFrom(business, left, job, to)
    if (shares) left = withShares(business, left, shares)
    return { job, shares }
  })
}

/** The days on which each rest could begin if all were lifted off: after the day that rains, at most a month of them. */
export function daysForRain(
  business: Rules,
  rows: WorkDayRow[],
  job: RainJob,
  range: { from: string },
): string[] {
  const found: string[] = []
  for (let day = range.from; day <= addDays(range.from, AHEAD) && found.length < MOST_DAYS; ) {
    if (sharesFrom(business, rows, job, day)) found.push(day)
    day = addDays(day, 1)
  }
  return found
}

/**
 * What is offered until somebody chooses: for each job in its turn the next makeup day that has room within three weeks,
 * else the next day that has.
 */
export function suggestRain(
  business: Rules,
  rows: WorkDayRow[],
  jobs: RainJob[],
  from: string,
): RainChoice[] {
  const makeup = new Set(rows.filter(row => row.is_makeup).map(row => row.day))
  let left = withoutShares(
    rows,
    jobs.flatMap(job => job.rest),
  )
  return jobs.map(job => {
    const days = daysForRain(business, left, job, { from })
    const kept = days.find(day => makeup.has(day) && day <= addDays(from, MAKEUP_WITHIN))
    const to = kept ?? days.find(day => !makeup.has(day)) ?? days[0] ?? null
    const shares = to && sharesFrom(business, left, job, to)
    if (shares) left = withShares(business, left, shares)
    return { bookingId: job.bookingId, to }
  })
}

function sharesFrom(business: Rules, rows: WorkDayRow[], job: RainJob, to: string): Share[] | undefined {
  const last = job.stays.at(-1)?.day
  if (last && to <= last) return undefined
  const roomOn = roomsFrom(business, rows)(to)
  const hours = sumOf(job.rest.map(share => new Decimal(share.hours))).toFixed(2)
  const shares = shareOut(hours, to, usualRoom(business, to), roomOn)
  // A morning stays one where there is room for it.
  const onHalf = shares && onPart(shares, job.rest[0]?.part)
  if (onHalf && haveRoom(onHalf, roomOn)) return onHalf
  return shares && haveRoom(shares, roomOn) ? shares : undefined
}

function withShares(business: Rules, rows: WorkDayRow[], shares: Share[]): WorkDayRow[] {
  const known = new Set(rows.map(({ day }) => day))
  const fresh = shares.filter(({ day }) => !known.has(day))
  const all = [
    ...rows,
    ...fresh.map(({ day }) => ({ day, room_hours: usualRoom(business, day), taken_hours: '0' })),
  ]
  return withoutShares(
    all,
    shares.map(share => ({ ...share, hours: new Decimal(share.hours).negated().toFixed(2) })),
  )
}
