import { describe, expect, test } from 'vitest'
import { easter } from '../../src/days/holiday-dates.ts'
import { datesOf, daysOff, holidaysOf, isHolidayOf } from '../../src/days/holidays.ts'

const of = (year: number, country = 'US') =>
  Object.fromEntries(holidaysOf(country).map(({ key, on }) => [key, on(year)]))

describe('the public holidays of the United States', () => {
  // As published by the U.S. Office of Personnel Management, federal holidays; those on a weekend by their own date.
  test('of 2026', () => {
    expect(of(2026)).toEqual({
      'new-year': '2026-01-01',
      king: '2026-01-19',
      washington: '2026-02-16',
      memorial: '2026-05-25',
      juneteenth: '2026-06-19',
      independence: '2026-07-04',
      labor: '2026-09-07',
      columbus: '2026-10-12',
      veterans: '2026-11-11',
      thanksgiving: '2026-11-26',
      christmas: '2026-12-25',
    })
  })

  test('of 2027, where months begin on other weekdays', () => {
    expect(of(2027)).toMatchObject({
      king: '2027-01-18',
      washington: '2027-02-15',
      memorial: '2027-05-31',
      labor: '2027-09-06',
      columbus: '2027-10-11',
      thanksgiving: '2027-11-25',
    })
  })

  test('fall within a range over the end of a year, its ends too', () => {
    const named = (key: string) => holidaysOf('US').find(holiday => holiday.key === key)!
    expect(datesOf(named('christmas'), '2026-12-25', '2027-12-25')).toEqual([
      '2026-12-25',
      '2027-12-24',
      '2027-12-25',
    ])
    expect(datesOf(named('new-year'), '2026-01-02', '2026-12-31')).toEqual([])
  })
})

// As published: tables of Easter by the U.S. Naval Observatory; both ends of what there can be among them. From memory.
test.each(['1818-03-22', '2024-03-31', '2025-04-20', '2026-04-05', '2027-03-28', '2028-04-16', '2038-04-25'])(
  'Easter is on %s',
  day => {
    expect(easter(Number(day.slice(0, 4)))).toBe(day)
  },
)

describe('those of other countries', () => {
  // Own dates; reckoned by hand from the texts of the laws that holidays.ts names. NZ’s Matariki as its Act lists it.
  test.each([
    ['GB', '01-01 04-03 04-06 05-04 05-25 08-31 12-25 12-26'],
    ['IE', '01-01 02-02 03-17 04-06 05-04 06-01 08-03 10-26 12-25 12-26'],
    ['CA', '01-01 04-03 05-18 07-01 09-07 09-30 10-12 11-11 12-25 12-26'],
    ['AU', '01-01 01-26 04-03 04-06 04-25 12-25 12-26'],
    ['NZ', '01-01 01-02 02-06 04-03 04-06 04-25 06-01 07-10 10-26 12-25 12-26'],
    ['MX', '01-01 02-02 03-16 05-01 09-16 11-16 12-25'],
    ['ZA', '01-01 03-21 04-03 04-06 04-27 05-01 06-16 08-09 09-24 12-16 12-25 12-26'],
    ['ZZ', ''],
  ])('%s in 2026', (country, dates) => {
    const days = Object.values(of(2026, country)).filter(day => day !== undefined)
    expect(days.join(' ').replaceAll('2026-', '')).toBe(dates)
  })

  test('where a rule turns: Ireland’s first of February on a Friday, Canada’s 24th of May on a Monday', () => {
    expect(of(2030, 'IE').brigid).toBe('2030-02-01')
    expect(of(2027, 'CA').victoria).toBe('2027-05-24')
  })

  // Since the reform of article 74 in 2024; the first of that October was one.
  test('Mexico’s change of President is every six years', () => {
    const years = [2024, 2025, 2026, 2029, 2030, 2036]
    expect(years.map(year => of(year, 'MX').president)).toEqual([
      '2024-10-01',
      undefined,
      undefined,
      undefined,
      '2030-10-01',
      '2036-10-01',
    ])
  })

  test('Matariki is a Friday of June or July wherever it is set', () => {
    const days = Array.from({ length: 31 }, (_, index) => of(2022 + index, 'NZ').matariki)
    for (const day of days) {
      const date = Temporal.PlainDate.from(day!)
      expect([date.dayOfWeek, date.month === 6 || date.month === 7]).toEqual([5, true])
    }
    expect([of(2021, 'NZ').matariki, of(2053, 'NZ').matariki]).toEqual([undefined, undefined])
  })
})

describe('where a date falls on a weekend', () => {
  const WEEK = [1, 2, 3, 4, 5]
  const offIn = (country: string, from: string, last: string, weekdays = WEEK) =>
    holidaysOf(country)
      .flatMap(holiday => daysOff(holiday, weekdays, from, last))
      .sort()
      .join(' ')

  // The London Gazette, L-55182-5SI: of 1998 December 28 for the 26th, and January 4, 1999, is Scotland’s for its second.
  // 2011: OPM’s list of 2012 has January 2 for New Year’s Day, and of 2012 November 12 for Veterans Day. ZA: 22 March 2010, and
  // May 2, 2005, by the Labour Appeal Court in Randfontein Estates v NUM (2008). NZ: section 45A; New Year’s and Christmas Days
  // as the Department of Labour told of them in 2011. The others follow from the laws that holidays.ts names.
  test.each([
    ['GB', '1998-12-20', '1998-12-31', '1998-12-25 1998-12-28'],
    ['GB', '2026-12-20', '2026-12-31', '2026-12-25 2026-12-28'],
    ['GB', '2027-12-20', '2028-01-05', '2027-12-27 2027-12-28 2028-01-03'],
    ['US', '2011-12-30', '2012-01-05', '2012-01-02'],
    ['US', '2012-11-05', '2012-11-15', '2012-11-12'],
    ['US', '2026-07-01', '2026-07-10', '2026-07-03'],
    ['US', '2027-12-20', '2028-01-05', '2027-12-24 2027-12-31'],
    ['ZA', '2010-03-20', '2010-03-25', '2010-03-22'],
    ['ZA', '2005-04-26', '2005-05-05', '2005-04-27 2005-05-02'],
    ['ZA', '2026-08-07', '2026-08-12', '2026-08-10'],
    ['NZ', '2027-02-01', '2027-04-30', '2027-02-08 2027-03-26 2027-03-29 2027-04-26'],
    ['NZ', '2027-12-20', '2028-01-05', '2027-12-27 2027-12-28 2028-01-03 2028-01-04'],
    ['IE', '2026-12-20', '2026-12-31', '2026-12-25'],
  ])('in %s, %s to %s are off: %s', (country, from, last, days) => {
    expect(offIn(country, from, last)).toBe(days)
  })

  test('who works that day has it off, and no other', () => {
    expect(offIn('US', '2026-07-01', '2026-07-10', [...WEEK, 6])).toBe('2026-07-04')
  })

  test('both days are holidays for whoever counts business days', () => {
    expect(['2026-12-26', '2026-12-28', '2026-12-29'].map(day => isHolidayOf('GB', day))).toEqual([
      true,
      true,
      false,
    ])
  })
})
