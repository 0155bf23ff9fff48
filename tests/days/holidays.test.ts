import { describe, expect, test } from 'vitest'
import { easter } from '../../src/days/holiday-dates.ts'
import { datesOf, holidaysOf } from '../../src/days/holidays.ts'

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
    expect(datesOf(named('christmas'), '2026-12-25', '2027-12-25')).toEqual(['2026-12-25', '2027-12-25'])
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
  // As published for 2026 by gov.uk, citizensinformation.ie, canada.ca, fairwork.gov.au, employment.govt.nz, gob.mx and
  // gov.za; from memory. Own dates, not those on which they are kept instead.
  test.each([
    ['GB', '01-01 04-03 04-06 05-04 05-25 08-31 12-25 12-26'],
    ['IE', '01-01 02-02 03-17 04-06 05-04 06-01 08-03 10-26 12-25 12-26'],
    ['CA', '01-01 04-03 05-18 07-01 09-07 09-30 10-12 11-11 12-25 12-26'],
    ['AU', '01-01 01-26 04-03 04-06 04-25 12-25 12-26'],
    ['NZ', '01-01 01-02 02-06 04-03 04-06 04-25 06-01 10-26 12-25 12-26'],
    ['MX', '01-01 02-02 03-16 05-01 09-16 11-16 12-25'],
    ['ZA', '01-01 03-21 04-03 04-06 04-27 05-01 06-16 08-09 09-24 12-16 12-25 12-26'],
    ['ZZ', ''],
  ])('%s in 2026', (country, dates) => {
    expect(Object.values(of(2026, country)).join(' ').replaceAll('2026-', '')).toBe(dates)
  })

  test('where a rule turns: Ireland’s first of February on a Friday, Canada’s 24th of May on a Monday', () => {
    expect(of(2030, 'IE').brigid).toBe('2030-02-01')
    expect(of(2027, 'CA').victoria).toBe('2027-05-24')
  })
})
