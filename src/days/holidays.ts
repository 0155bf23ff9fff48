import type { Country } from '../language/countries.ts'
import { weekdayOf } from '../lib/dates.ts'
import {
  fixed,
  fromEaster,
  MONDAY,
  mondayAfter,
  mondayBefore,
  nearestWeekday,
  nextMonday,
  nth,
  pastWeekend,
  saintBrigid,
  THURSDAY,
} from './holiday-dates.ts'
import { matariki } from './matariki.ts'

/**
 * A public holiday: by what it is kept, what it is called, its date in a year, 'YYYY-MM-DD', undefined where a year has none;
 * and the day that the law gives besides or instead where that date is one, mostly of a weekend, on which few work.
 */
export interface Holiday {
  key: string
  name: string
  on: (year: number) => string | undefined
  instead: (date: string) => string | undefined
}

type Rows = [key: string, name: string, on: Holiday['on'], instead?: Holiday['instead']][]

const NEW_YEAR: Rows[number] = ['new-year', 'New Year’s Day', fixed('01-01')]
const GOOD_FRIDAY: Rows[number] = ['good-friday', 'Good Friday', fromEaster(-2)]
const EASTER_MONDAY: Rows[number] = ['easter-monday', 'Easter Monday', fromEaster(1)]
const CHRISTMAS: Rows[number] = ['christmas', 'Christmas Day', fixed('12-25')]
const BOXING_DAY: Rows[number] = ['boxing-day', 'Boxing Day', fixed('12-26')]

/**
 * By country those that all of it has, by the law that is named; its text was read for each but section 166 of the Canada
 * Labour Code, the days that proclamations give the United Kingdom, and section 45 of New Zealand's Act, which are from
 * memory. Days of regions alone are left out.
 */
const OF_COUNTRY: Partial<Record<Country, Rows>> = {
  // 5 U.S.C. 6103(a), and (b) for a date on a weekend.
  US: withInstead(nearestWeekday, [
    NEW_YEAR,
    ['king', 'Martin Luther King Jr. Day', nth(3, MONDAY, 1)],
    ['washington', 'Washington’s Birthday', nth(3, MONDAY, 2)],
    ['memorial', 'Memorial Day', mondayBefore(6, 1)],
    ['juneteenth', 'Juneteenth', fixed('06-19')],
    ['independence', 'Independence Day', fixed('07-04')],
    ['labor', 'Labor Day', nth(1, MONDAY, 9)],
    ['columbus', 'Columbus Day', nth(2, MONDAY, 10)],
    ['veterans', 'Veterans Day', fixed('11-11')],
    ['thanksgiving', 'Thanksgiving Day', nth(4, THURSDAY, 11)],
    CHRISTMAS,
  ]),
  // Canada Labour Code, section 166; provinces have others besides. A date on a weekend is the employer's to put elsewhere.
  CA: [
    NEW_YEAR,
    GOOD_FRIDAY,
    ['victoria', 'Victoria Day', mondayBefore(5, 25)],
    ['canada', 'Canada Day', fixed('07-01')],
    ['labor', 'Labour Day', nth(1, MONDAY, 9)],
    ['reconciliation', 'National Day for Truth and Reconciliation', fixed('09-30')],
    ['thanksgiving', 'Thanksgiving Day', nth(2, MONDAY, 10)],
    ['remembrance', 'Remembrance Day', fixed('11-11')],
    CHRISTMAS,
    BOXING_DAY,
  ],
  // Banking and Financial Dealings Act 1971, schedule 1, and each year's proclamation; Scotland and Northern Ireland have others.
  GB: [
    ['new-year', 'New Year’s Day', fixed('01-01'), nextMonday],
    GOOD_FRIDAY,
    ['easter-monday', 'Easter Monday (not in Scotland)', fromEaster(1)],
    ['early-may', 'Early May bank holiday', nth(1, MONDAY, 5)],
    ['spring', 'Spring bank holiday', mondayBefore(6, 1)],
    ['summer', 'Summer bank holiday (not in Scotland)', mondayBefore(9, 1)],
    ...withInstead(pastWeekend, [CHRISTMAS, BOXING_DAY]),
  ],
  // Organisation of Working Time Act 1997, second schedule, as amended; a date on a weekend stays.
  IE: [
    NEW_YEAR,
    ['brigid', 'St Brigid’s Day', saintBrigid],
    ['patrick', 'St Patrick’s Day', fixed('03-17')],
    EASTER_MONDAY,
    ['may', 'May holiday', nth(1, MONDAY, 5)],
    ['june', 'June holiday', nth(1, MONDAY, 6)],
    ['august', 'August holiday', nth(1, MONDAY, 8)],
    ['october', 'October holiday', mondayBefore(11, 1)],
    CHRISTMAS,
    ['boxing-day', 'St Stephen’s Day', fixed('12-26')],
  ],
  // Fair Work Act 2009, section 115; the King’s birthday, and the days for dates on a weekend, differ by state.
  AU: [
    NEW_YEAR,
    ['australia', 'Australia Day', fixed('01-26')],
    GOOD_FRIDAY,
    EASTER_MONDAY,
    ['anzac', 'Anzac Day', fixed('04-25')],
    CHRISTMAS,
    BOXING_DAY,
  ],
  // Holidays Act 2003, sections 44 to 45A; without the days of provinces.
  NZ: [
    ...withInstead(pastWeekend, [NEW_YEAR, ['new-year-2', 'Day after New Year’s Day', fixed('01-02')]]),
    ['waitangi', 'Waitangi Day', fixed('02-06'), nextMonday],
    GOOD_FRIDAY,
    EASTER_MONDAY,
    ['anzac', 'Anzac Day', fixed('04-25'), nextMonday],
    ['king-birthday', 'King’s Birthday', nth(1, MONDAY, 6)],
    ['matariki', 'Matariki', matariki],
    ['labor', 'Labour Day', nth(4, MONDAY, 10)],
    ...withInstead(pastWeekend, [CHRISTMAS, BOXING_DAY]),
  ],
  // Ley Federal del Trabajo, article 74; election days are set by the laws on elections.
  MX: [
    NEW_YEAR,
    ['constitution', 'Constitution Day', nth(1, MONDAY, 2)],
    ['juarez', 'Benito Juárez’s Birthday', nth(3, MONDAY, 3)],
    ['labor', 'Labor Day', fixed('05-01')],
    ['independence', 'Independence Day', fixed('09-16')],
    ['president', 'Change of President', year => (year % 6 === 2 ? `${year}-10-01` : undefined)],
    ['revolution', 'Revolution Day', nth(3, MONDAY, 11)],
    CHRISTMAS,
  ],
  // Public Holidays Act 36 of 1994, schedule 1, and section 2(1) for a date on a Sunday.
  ZA: withInstead(mondayAfter, [
    NEW_YEAR,
    ['human-rights', 'Human Rights Day', fixed('03-21')],
    GOOD_FRIDAY,
    ['easter-monday', 'Family Day', fromEaster(1)],
    ['freedom', 'Freedom Day', fixed('04-27')],
    ['labor', 'Workers’ Day', fixed('05-01')],
    ['youth', 'Youth Day', fixed('06-16')],
    ['women', 'National Women’s Day', fixed('08-09')],
    ['heritage', 'Heritage Day', fixed('09-24')],
    ['reconciliation', 'Day of Reconciliation', fixed('12-16')],
    CHRISTMAS,
    ['boxing-day', 'Day of Goodwill', fixed('12-26')],
  ]),
}

function withInstead(instead: Holiday['instead'], rows: Rows): Rows {
  return rows.map(([key, name, on]) => [key, name, on, instead])
}

/** The holidays that are offered to a business in a country, an ISO 3166 code; none where it is another country. */
export function holidaysOf(country: string): Holiday[] {
  const rows = OF_COUNTRY[country as Country] ?? []
  return rows.map(([key, name, on, instead = () => undefined]) => ({ key, name, on, instead }))
}

/** Whether a day is a public holiday of a country, on its own date or on the one that the law gives for it. */
export function isHolidayOf(country: string, day: string): boolean {
  return holidaysOf(country).some(holiday => datesOf(holiday, day, day).length > 0)
}

/** The dates of a holiday within a range of days, and those that the law gives for them, in their order. */
export function datesOf(holiday: Holiday, from: string, last: string): string[] {
  const days = yearsOf(from, last).flatMap(year => {
    const own = holiday.on(year)
    return own === undefined ? [] : [own, holiday.instead(own)]
  })
  return days.filter(day => day !== undefined && day >= from && day <= last).sort() as string[]
}

/**
 * The days of a range that a holiday has off for who works on some weekdays, from Monday, 1, on: its own date, and where that
 * isn't worked the one that the law gives for it.
 */
export function daysOff(holiday: Holiday, weekdays: number[], from: string, last: string): string[] {
  const isWorked = (day: string | undefined) => day !== undefined && weekdays.includes(weekdayOf(day))
  const days = yearsOf(from, last).flatMap(year => {
    const own = holiday.on(year)
    if (own === undefined) return []
    return [own, holiday.instead(own)].find(isWorked) ?? []
  })
  return days.filter(day => day >= from && day <= last)
}

// One year more at either end: a New Year's Day may be given the last day of the year before.
function yearsOf(from: string, last: string): number[] {
  const first = Number(from.slice(0, 4)) - 1
  return Array.from({ length: Number(last.slice(0, 4)) + 2 - first }, (_, index) => first + index)
}
