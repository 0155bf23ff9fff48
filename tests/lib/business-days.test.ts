import { expect, test } from 'vitest'
import { dayAfterBusinessDays, isBusinessDay } from '../../src/lib/business-days.ts'

// Of the rule for sales made at home: any day but a Sunday or a federal holiday. Weekdays by the calendar of each year.
test.each([
  ['a Monday: Tuesday, Wednesday, Thursday', '2026-03-02', '2026-03-06'],
  ['a Thursday: Friday, Saturday, Monday', '2026-03-05', '2026-03-10'],
  ['the day before Independence Day, a Saturday, kept on Friday', '2026-07-01', '2026-07-08'],
  ['over Thanksgiving, the 26th', '2026-11-25', '2026-12-01'],
  ['over Christmas and New Year', '2026-12-24', '2026-12-30'],
  ['over a leap day', '2028-02-26', '2028-03-02'],
])('three business days after %s', (_why, from, day) => {
  expect(dayAfterBusinessDays(from, 3)).toBe(day)
})

test('every federal holiday of 2026 is one', () => {
  const holidays = [
    '2026-01-01',
    '2026-01-19',
    '2026-02-16',
    '2026-05-25',
    '2026-06-19',
    '2026-07-03',
    '2026-07-04',
    '2026-09-07',
    '2026-10-12',
    '2026-11-11',
    '2026-11-26',
    '2026-12-25',
  ]
  const year = Array.from({ length: 365 }, (_, nth) =>
    Temporal.PlainDate.from('2026-01-01').add({ days: nth }),
  )
  const found = year.filter(day => day.dayOfWeek !== 7 && !isBusinessDay(day.toString()))
  expect(found.map(String)).toEqual(holidays)
})
