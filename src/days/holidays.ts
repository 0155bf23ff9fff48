import { addDays } from '../lib/dates.ts'

/** A public holiday: by what it is kept, what it is called, and its date in a year, 'YYYY-MM-DD'. */
export interface Holiday {
  key: string
  name: string
  on: (year: number) => string
}

const MONDAY = 1
const THURSDAY = 4

/** The legal public holidays of the United States, 5 U.S.C. 6103(a), on their own dates. */
const OF_UNITED_STATES: Holiday[] = [
  { key: 'new-year', name: 'New Year’s Day', on: year => `${year}-01-01` },
  { key: 'king', name: 'Martin Luther King Jr. Day', on: year => nth(3, MONDAY, year, 1) },
  { key: 'washington', name: 'Washington’s Birthday', on: year => nth(3, MONDAY, year, 2) },
  { key: 'memorial', name: 'Memorial Day', on: year => addDays(nth(1, MONDAY, year, 6), -7) },
  { key: 'juneteenth', name: 'Juneteenth', on: year => `${year}-06-19` },
  { key: 'independence', name: 'Independence Day', on: year => `${year}-07-04` },
  { key: 'labor', name: 'Labor Day', on: year => nth(1, MONDAY, year, 9) },
  { key: 'columbus', name: 'Columbus Day', on: year => nth(2, MONDAY, year, 10) },
  { key: 'veterans', name: 'Veterans Day', on: year => `${year}-11-11` },
  { key: 'thanksgiving', name: 'Thanksgiving Day', on: year => nth(4, THURSDAY, year, 11) },
  { key: 'christmas', name: 'Christmas Day', on: year => `${year}-12-25` },
]

/** The holidays that are offered to a business in a country, an ISO 3166 code; none where we have no source of them. */
export function holidaysOf(country: string): Holiday[] {
  return country === 'US' ? OF_UNITED_STATES : []
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

/** The nth weekday of a month, weekdays as ISO numbers them: the first Monday is nth(1, 1, …). */
function nth(count: number, weekday: number, year: number, month: number): string {
  const first = new Temporal.PlainDate(year, month, 1)
  const ahead = (weekday - first.dayOfWeek + 7) % 7
  return first.add({ days: ahead + (count - 1) * 7 }).toString()
}
