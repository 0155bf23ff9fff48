import { addDays, weekdayOf } from '../lib/dates.ts'

/** Weekdays as ISO numbers them. */
export const MONDAY = 1
export const THURSDAY = 4
const FRIDAY = 5
const SATURDAY = 6
const SUNDAY = 7

/** The same date of every year: '07-04'. */
export function fixed(date: string): (year: number) => string {
  return year => `${year}-${date}`
}

/** The nth weekday of a month: the first Monday of May is nth(1, MONDAY, 5). */
export function nth(count: number, weekday: number, month: number): (year: number) => string {
  return year => {
    const first = new Temporal.PlainDate(year, month, 1)
    const ahead = (weekday - first.dayOfWeek + 7) % 7
    return first.add({ days: ahead + (count - 1) * 7 }).toString()
  }
}

/** The last Monday before a day of a month: that before May 25 is mondayBefore(5, 25), the last one of May mondayBefore(6, 1). */
export function mondayBefore(month: number, date: number): (year: number) => string {
  return year => {
    const end = new Temporal.PlainDate(year, month, date)
    return end.subtract({ days: (end.dayOfWeek + 7 - MONDAY) % 7 || 7 }).toString()
  }
}

/** So many days from Easter Sunday: Good Friday is -2. */
export function fromEaster(days: number): (year: number) => string {
  return year => addDays(easter(year), days)
}

/** The first Monday of February, or its first day where that is a Friday (Ireland, since 2023). */
export function saintBrigid(year: number): string {
  const first = new Temporal.PlainDate(year, 2, 1)
  return first.dayOfWeek === FRIDAY ? first.toString() : nth(1, MONDAY, 2)(year)
}

/**
 * Easter Sunday of the Gregorian calendar, by the anonymous algorithm of Nature, 20 April 1876, as Jean Meeus gives it in
 * Astronomical Algorithms, chapter 8; its letters are his.
 */
export function easter(year: number): string {
  const [a, b, c] = [year % 19, Math.floor(year / 100), year % 100]
  const [d, e, f] = [Math.floor(b / 4), b % 4, Math.floor((b + 8) / 25)]
  const g = Math.floor((b - f + 1) / 3)
  const h = (19 * a + b - d - g + 15) % 30
  const [i, k] = [Math.floor(c / 4), c % 4]
  const l = (32 + 2 * e + 2 * i - h - k) % 7
  const m = Math.floor((a + 11 * h + 22 * l) / 451)
  const from = h + l - 7 * m + 114
  return new Temporal.PlainDate(year, Math.floor(from / 31), (from % 31) + 1).toString()
}

/** The Friday before a Saturday and the Monday after a Sunday; undefined of other days. */
export function nearestWeekday(day: string): string | undefined {
  const weekday = weekdayOf(day)
  return weekday === SATURDAY ? addDays(day, -1) : weekday === SUNDAY ? addDays(day, 1) : undefined
}

/** The Monday after a Saturday or a Sunday; undefined of other days. */
export function nextMonday(day: string): string | undefined {
  const weekday = weekdayOf(day)
  return weekday >= SATURDAY ? addDays(day, 8 - weekday) : undefined
}

/** Two days later of a Saturday or a Sunday, as of two holidays one after the other; undefined of other days. */
export function pastWeekend(day: string): string | undefined {
  return weekdayOf(day) >= SATURDAY ? addDays(day, 2) : undefined
}

/** The Monday after a Sunday; undefined of other days. */
export function mondayAfter(day: string): string | undefined {
  return weekdayOf(day) === SUNDAY ? addDays(day, 1) : undefined
}
