import type { Country } from '../language/countries.ts'
import { fixed, fromEaster, MONDAY, mondayBefore, nth, saintBrigid, THURSDAY } from './holiday-dates.ts'

/** A public holiday: by what it is kept, what it is called, and its date in a year, 'YYYY-MM-DD'. */
export interface Holiday {
  key: string
  name: string
  on: (year: number) => string
}

type Rows = [key: string, name: string, on: Holiday['on']][]

const NEW_YEAR: Rows[number] = ['new-year', 'New Year’s Day', fixed('01-01')]
const GOOD_FRIDAY: Rows[number] = ['good-friday', 'Good Friday', fromEaster(-2)]
const EASTER_MONDAY: Rows[number] = ['easter-monday', 'Easter Monday', fromEaster(1)]
const CHRISTMAS: Rows[number] = ['christmas', 'Christmas Day', fixed('12-25')]
const BOXING_DAY: Rows[number] = ['boxing-day', 'Boxing Day', fixed('12-26')]

/**
 * By country those that all of it has, on their own dates: one that falls on a weekend isn't moved to a working day. All
 * but those of the United States are from memory of the laws named.
 */
const OF_COUNTRY: Partial<Record<Country, Rows>> = {
  // 5 U.S.C. 6103(a).
  US: [
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
  ],
  // Canada Labour Code, section 166; provinces have others besides.
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
  // Banking and Financial Dealings Act 1971 and custom; Scotland and Northern Ireland have others.
  GB: [
    NEW_YEAR,
    GOOD_FRIDAY,
    ['easter-monday', 'Easter Monday (not in Scotland)', fromEaster(1)],
    ['early-may', 'Early May bank holiday', nth(1, MONDAY, 5)],
    ['spring', 'Spring bank holiday', mondayBefore(6, 1)],
    ['summer', 'Summer bank holiday (not in Scotland)', mondayBefore(9, 1)],
    CHRISTMAS,
    BOXING_DAY,
  ],
  // Organisation of Working Time Act 1997, second schedule, as amended.
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
  // Fair Work Act 2009, section 115; the King’s birthday differs by state.
  AU: [
    NEW_YEAR,
    ['australia', 'Australia Day', fixed('01-26')],
    GOOD_FRIDAY,
    EASTER_MONDAY,
    ['anzac', 'Anzac Day', fixed('04-25')],
    CHRISTMAS,
    BOXING_DAY,
  ],
  // Holidays Act 2003, section 44; without Matariki, whose dates follow no rule, and the days of provinces.
  NZ: [
    NEW_YEAR,
    ['new-year-2', 'Day after New Year’s Day', fixed('01-02')],
    ['waitangi', 'Waitangi Day', fixed('02-06')],
    GOOD_FRIDAY,
    EASTER_MONDAY,
    ['anzac', 'Anzac Day', fixed('04-25')],
    ['king-birthday', 'King’s Birthday', nth(1, MONDAY, 6)],
    ['labor', 'Labour Day', nth(4, MONDAY, 10)],
    CHRISTMAS,
    BOXING_DAY,
  ],
  // Ley Federal del Trabajo, article 74; without the day on which a president takes office.
  MX: [
    NEW_YEAR,
    ['constitution', 'Constitution Day', nth(1, MONDAY, 2)],
    ['juarez', 'Benito Juárez’s Birthday', nth(3, MONDAY, 3)],
    ['labor', 'Labor Day', fixed('05-01')],
    ['independence', 'Independence Day', fixed('09-16')],
    ['revolution', 'Revolution Day', nth(3, MONDAY, 11)],
    CHRISTMAS,
  ],
  // Public Holidays Act 36 of 1994.
  ZA: [
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
  ],
}

/** The holidays that are offered to a business in a country, an ISO 3166 code; none where it is another country. */
export function holidaysOf(country: string): Holiday[] {
  const rows = OF_COUNTRY[country as Country] ?? []
  return rows.map(([key, name, on]) => ({ key, name, on }))
}

/** Whether a day is a public holiday of a country, on its own date. */
export function isHolidayOf(country: string, day: string): boolean {
  return holidaysOf(country).some(({ on }) => on(Number(day.slice(0, 4))) === day)
}

/** The dates of a holiday within a range of days. */
export function datesOf(holiday: Holiday, from: string, last: string): string[] {
  const years = [Number(from.slice(0, 4)), Number(last.slice(0, 4))]
  const found: string[] = []
  for (let year = years[0]!; year <= years[1]!; year += 1) {
    const day = holiday.on(year)
    if (day >= from && day <= last) found.push(day)
  }
  return found
}
