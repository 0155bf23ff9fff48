import type { Business } from '../business/queries.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { PARTS, type Part, type Start } from './start.ts'

/** How far ahead a job may begin, in days. */
export const DAYS_AHEAD = 366
const LONGEST_JOB_IN_WORK_DAYS = 60

export interface WorkDayRow {
  day: string
  room_hours: string
  taken_hours: string
  /** What of that is booked on the morning, and on the afternoon. */
  am_hours?: string
  pm_hours?: string
  /** Labor hours that visits need of it, as far as work leaves them. */
  visit_need?: string
  /** The same of its morning and its afternoon. */
  visit_am_need?: string
  visit_pm_need?: string
  /** Kept for what rain moves, on whatever weekday; false where nothing is said. */
  is_makeup?: boolean
}

/** Labor hours that a job takes of one work day. */
export interface Share {
  day: string
  hours: string
  part?: Part | null
}

/** A day on which a job can begin: the labor hours free on it, every share that the job would take, and the halves it fits in. */
export interface FreeDay {
  day: string
  free: string
  shares: Share[]
  parts: Part[]
}

/** What the room of a day follows from; without hours by weekday it is one number. */
export type RoomRules = Pick<Business, 'working_days' | 'labor_hours_a_day'> &
  Partial<Pick<Business, 'weekday_hours'>>

/** Labor hours: the room of a day, and what work and visits take of it, of its morning and of its afternoon. */
interface Room {
  room: Decimal
  taken: Decimal
  am: Decimal
  pm: Decimal
}

/** What there is on a day: its room and what is taken of it in labor hours; null when it is no work day, or closed. */
export type RoomOn = (day: string) => Room | null

/** Makeup days are for what rain moves, and for what the staff move there. */
export type MakeupDays = 'left out' | 'counted'

/** The labor hours of a day that nothing is known of beyond its weekday; the database’s usual_room says the same. */
export function usualRoom({ labor_hours_a_day, weekday_hours }: RoomRules, day: string): string {
  return weekday_hours?.[weekdayOf(day) - 1] ?? labor_hours_a_day
}

/** The rooms of a business: as the rows say, and as usual on the working days that have no row yet. */
export function roomsOf(
  business: RoomRules,
  rows: WorkDayRow[],
  makeupDays: MakeupDays = 'left out',
): RoomOn {
  const byDay = new Map(rows.map(row => [row.day, row]))
  return day => {
    const row = byDay.get(day)
    if (row?.is_makeup && makeupDays === 'left out') return null
    if (!row?.is_makeup && !business.working_days.includes(weekdayOf(day))) return null
    const room = new Decimal(row?.room_hours ?? usualRoom(business, day))
    if (room.isZero()) return null
    const work = new Decimal(row?.taken_hours ?? 0)
    const taken = withVisits(work, row?.visit_need, room)
    const am = withVisits(new Decimal(row?.am_hours ?? 0), row?.visit_am_need, room.div(2))
    const pm = withVisits(new Decimal(row?.pm_hours ?? 0), row?.visit_pm_need, room.div(2))
    return { room, taken, am, pm }
  }
}

// As the database keeps them: visits never push work out.
function withVisits(work: Decimal, need: string | undefined, room: Decimal): Decimal {
  return work.plus(Decimal.max(0, Decimal.min(need ?? 0, room.minus(work))))
}

/**
 * How a job's labor hours lie on the days from its first: all on that day when a usual work day holds them, else
 * whole work days one after the other and the rest on the last. Says nothing of what is taken already; undefined
 * when the first is no work day, or the job is longer than can be planned.
 */
export function shareOut(
  laborHours: string,
  firstDay: string,
  usualRoom: string,
  roomOn: RoomOn,
): Share[] | undefined {
  if (!roomOn(firstDay)) return undefined
  if (new Decimal(laborHours).lte(usualRoom)) return [{ day: firstDay, hours: laborHours }]
  const shares: Share[] = []
  let rest = new Decimal(laborHours)
  let day = firstDay
  for (let ahead = 0; ahead < DAYS_AHEAD && shares.length < LONGEST_JOB_IN_WORK_DAYS; ahead += 1) {
    const room = roomOn(day)?.room
    if (room) {
      shares.push({ day, hours: Decimal.min(rest, room).toFixed(2) })
      rest = rest.minus(room)
    }
    if (rest.lte(0)) return shares
    day = addDays(day, 1)
  }
  return undefined
}

/** Whether every share still has room; the database's own check says the same when the job is booked. */
export function haveRoom(shares: Share[], roomOn: RoomOn): boolean {
  return shares.every(({ day, hours, part }) => {
    const on = roomOn(day)
    if (!on || on.taken.plus(hours).gt(on.room)) return false
    return !part || on[part].plus(hours).times(2).lte(on.room)
  })
}

/** The halves of a day in which a job of one share has room. */
function freeParts(shares: Share[], roomOn: RoomOn): Part[] {
  const [only, more] = shares
  return only && !more ? PARTS.filter(part => haveRoom([{ ...only, part }], roomOn)) : []
}

/** The starts that a free day gives where halves may be chosen: its halves, and the day alone for the staff, or where no half is free. */
export function startsOn(
  { day, parts }: FreeDay,
  { half_days }: Pick<Business, 'half_days'>,
  who: 'homeowner' | 'staff' = 'homeowner',
): Start[] {
  const halves = half_days ? parts.map(part => ({ day, part })) : []
  return who === 'staff' || halves.length === 0 ? [{ day }, ...halves] : halves
}

/** The shares of a job on a half of its day, as far as that is one; undefined where it takes more days. */
export function onPart(shares: Share[], part: Part | null | undefined): Share[] | undefined {
  if (!part) return shares
  return shares.length === 1 ? [{ ...shares[0]!, part }] : undefined
}

/** The first day that homeowners can book: so many days from today as the business wants notice, where it is. */
export function earliestDay(
  business: Pick<Business, 'time_zone' | 'notice_days'>,
  now: Temporal.Instant,
): string {
  return addDays(dayOf(now, business.time_zone), business.notice_days)
}

/** The first day that the staff can book: tomorrow. */
export function earliestForStaff(business: Pick<Business, 'time_zone'>, now: Temporal.Instant): string {
  return addDays(dayOf(now, business.time_zone), 1)
}

/** The rooms for a job that begins on a day: makeup days count where it begins on one. */
export function roomsFrom(business: RoomRules, rows: WorkDayRow[]): (firstDay: string) => RoomOn {
  const [without, withThem] = [roomsOf(business, rows), roomsOf(business, rows, 'counted')]
  const makeup = new Set(rows.filter(row => row.is_makeup).map(row => row.day))
  return firstDay => (makeup.has(firstDay) ? withThem : without)
}

/** The days from `fromDay` on which a job can begin, at most `count` of them and none after `lastDay`. */
export function pickFreeDays(
  business: RoomRules,
  rows: WorkDayRow[],
  laborHours: string,
  range: { fromDay: string; lastDay: string; count: number },
  makeupDays: MakeupDays = 'left out',
): FreeDay[] {
  const without = roomsOf(business, rows)
  const roomsFor = makeupDays === 'counted' ? roomsFrom(business, rows) : () => without
  const found: FreeDay[] = []
  for (let day = range.fromDay; day <= range.lastDay && found.length < range.count; day = addDays(day, 1)) {
    const roomOn = roomsFor(day)
    const shares = shareOut(laborHours, day, usualRoom(business, day), roomOn)
    const on = roomOn(day)
    if (shares && on && haveRoom(shares, roomOn)) {
      found.push({ day, free: on.room.minus(on.taken).toFixed(2), shares, parts: freeParts(shares, roomOn) })
    }
  }
  return found
}

/** The rows with some shares taken out of what is taken, as for the job that has them. */
export function withoutShares(rows: WorkDayRow[], shares: Share[]): WorkDayRow[] {
  return rows.map(row => {
    const mine = shares.filter(({ day }) => day === row.day)
    if (mine.length === 0) return row
    const less = (was: string, part?: Part) =>
      mine
        .filter(share => part === undefined || share.part === part)
        .reduce((rest, { hours }) => rest.minus(hours), new Decimal(was))
        .toFixed(2)
    const { am_hours = '0', pm_hours = '0' } = row
    return {
      ...row,
      taken_hours: less(row.taken_hours),
      am_hours: less(am_hours, 'am'),
      pm_hours: less(pm_hours, 'pm'),
    }
  })
}
