import type { Business } from '../business/queries.ts'
import { t } from '../language/catalogue.ts'
import { monthDay } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { addDays, weekdayOf } from '../lib/dates.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { readDay } from './form.ts'
import { type FreeDay, pickFreeDays, type RoomRules, usualRoom, type WorkDayRow } from './room.ts'

const DAYS = 7
const PREFIX = 'week '

/** A week in which a job has room: its Monday, and the days on which it is penciled in. */
export interface FreeWeek {
  monday: string
  pencil: FreeDay
}

/** The Monday of a day's week. */
export function mondayOf(day: string): string {
  return addDays(day, 1 - weekdayOf(day))
}

/** The last day of a week, by its Monday. */
export function sundayOf(monday: string): string {
  return addDays(monday, DAYS - 1)
}

/** A week as forms and the history have it: 'week 2026-03-09'. */
export function weekText(monday: string): string {
  return PREFIX + monday
}

/** The Monday of a week in such a text; undefined where it is none. */
export function mondayIn(text: string): string | undefined {
  const day = text.startsWith(PREFIX) ? readDay(text.slice(PREFIX.length)) : undefined
  return day !== undefined && weekdayOf(day) === 1 ? day : undefined
}

/** 'the week of March 9'. */
export function weekInWords(monday: string, language: Language): string {
  return t(language, 'week.of', { day: monthDay(monday, language) })
}

/** The day by which a homeowner who chose a week is told the day of it. */
export function sayDayBy({ say_day_before }: Pick<Business, 'say_day_before'>, monday: string): string {
  return addDays(monday, -say_day_before)
}

/** Whether homeowners choose a week for a job: where the owner wants it so, and a usual week holds its labor hours. */
export function choosesWeek(business: Business, laborHours: string): boolean {
  return business.day_choice === 'week' && new Decimal(laborHours).lte(hoursOfWeek(business))
}

function hoursOfWeek(business: RoomRules): Decimal {
  // Any week does: what is usual goes by the weekday.
  const days = Array.from({ length: DAYS }, (_, index) => addDays('2026-01-05', index))
  const worked = days.filter(day => business.working_days.includes(weekdayOf(day)))
  return sumOf(worked.map(day => new Decimal(usualRoom(business, day))))
}

/** The first Monday of a week that lies on or after a day. */
export function nextMonday(day: string): string {
  return weekdayOf(day) === 1 ? day : addDays(mondayOf(day), DAYS)
}

/** The first weeks that have room for all of a job, from one on: at most `count`, none that begins after `lastDay`. */
export function pickFreeWeeks(
  business: RoomRules,
  rows: WorkDayRow[],
  laborHours: string,
  { fromDay, lastDay, count }: { fromDay: string; lastDay: string; count: number },
): FreeWeek[] {
  const found: FreeWeek[] = []
  for (let monday = nextMonday(fromDay); monday <= lastDay && found.length < count; ) {
    const pencil = pickInWeek(business, rows, laborHours, monday)
    if (pencil) found.push({ monday, pencil })
    monday = addDays(monday, DAYS)
  }
  return found
}

/** The days of a week, from one on, on which all of a job has room within that week; `fromDay` is its Monday or later. */
export function daysInWeek(
  business: RoomRules,
  rows: WorkDayRow[],
  laborHours: string,
  fromDay: string,
): FreeDay[] {
  const lastDay = sundayOf(mondayOf(fromDay))
  const free = pickFreeDays(business, rows, laborHours, { fromDay, lastDay, count: DAYS })
  return free.filter(({ shares }) => shares.at(-1)!.day <= lastDay)
}

// Where least is left over, so that whole days stay free for others.
function pickInWeek(
  business: RoomRules,
  rows: WorkDayRow[],
  laborHours: string,
  monday: string,
): FreeDay | undefined {
  const days = daysInWeek(business, rows, laborHours, monday)
  return days.reduce<FreeDay | undefined>(
    (best, day) => (best && new Decimal(best.free).lte(day.free) ? best : day),
    undefined,
  )
}
