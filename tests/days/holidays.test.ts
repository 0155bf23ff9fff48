import { describe, expect, test } from 'vitest'
import { datesOf, holidaysOf } from '../../src/days/holidays.ts'

const of = (year: number) => Object.fromEntries(holidaysOf('US').map(({ key, on }) => [key, on(year)]))

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

  test('are offered to no other country', () => {
    expect(['CA', 'GB', 'ZZ'].flatMap(holidaysOf)).toEqual([])
  })
})
