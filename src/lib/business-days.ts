import { addDays, weekdayOf } from './dates.ts'

const SUNDAY = 7
const FRIDAY = 5

/** [month, day] of the federal holidays on a fixed date (5 U.S.C. 6103, from memory). */
const FIXED: [number, number][] = [
  [1, 1],
  [6, 19],
  [7, 4],
  [11, 11],
  [12, 25],
]

/** [month, weekday from Monday 1 on, which of the month]; 5 is the last. */
const MOVING: [number, number, number][] = [
  [1, 1, 3],
  [2, 1, 3],
  [5, 1, 5],
  [9, 1, 1],
  [10, 1, 2],
  [11, 4, 4],
]

/**
 * The day after so many business days from a day on, that one not counted. A business day is any but a Sunday or a federal
 * holiday (16 CFR 429.0); one that falls on a weekend isn't counted, nor the day on which it is kept then.
 */
export function dayAfterBusinessDays(from: string, count: number): string {
  let day = from
  for (let left = count; left > 0; ) {
    day = addDays(day, 1)
    if (isBusinessDay(day)) left -= 1
  }
  return addDays(day, 1)
}

/** The day that lies so many working days of suppliers before one: Mondays to Fridays that are no federal holidays. */
export function businessDayBefore(day: string, count: number): string {
  let before = day
  for (let left = count; left > 0; ) {
    before = addDays(before, -1)
    if (isBusinessDay(before) && weekdayOf(before) <= FRIDAY) left -= 1
  }
  return before
}

/** Whether a day is one that is counted. */
export function isBusinessDay(day: string): boolean {
  return weekdayOf(day) !== SUNDAY && !isHoliday(day) && !isKeptFor(day)
}

// A holiday on a Saturday is kept on the Friday before, one on a Sunday on the Monday after.
function isKeptFor(day: string): boolean {
  const weekday = weekdayOf(day)
  return (weekday === 5 && isHoliday(addDays(day, 1))) || (weekday === 1 && isHoliday(addDays(day, -1)))
}

function isHoliday(day: string): boolean {
  const { month, day: date, daysInMonth } = Temporal.PlainDate.from(day)
  if (FIXED.some(([inMonth, on]) => inMonth === month && on === date)) return true
  return MOVING.some(([inMonth, weekday, nth]) => {
    if (inMonth !== month || weekdayOf(day) !== weekday) return false
    return nth === 5 ? date + 7 > daysInMonth : Math.ceil(date / 7) === nth
  })
}
