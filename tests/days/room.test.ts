import { describe, expect, test } from 'vitest'
import { earliestDay, pickFreeDays, roomsOf, shareOut, type WorkDayRow } from '../../src/days/room.ts'

const MONDAY_TO_FRIDAY = { working_days: [1, 2, 3, 4, 5], labor_hours_a_day: '8.00' }

function row(day: string, taken: string, room = '8.00'): WorkDayRow {
  return { day, room_hours: room, taken_hours: taken }
}

function freeDays(rows: WorkDayRow[], laborHours: string, fromDay: string, lastDay: string) {
  const range = { fromDay, lastDay, count: 100 }
  return pickFreeDays(MONDAY_TO_FRIDAY, rows, laborHours, range).map(({ day }) => day)
}

describe('a job that fits a work day', () => {
  // March 2, 2026 is a Monday.
  test('takes any working day with that much free', () => {
    const rows = [row('2026-03-02', '5.00'), row('2026-03-03', '5.01'), row('2026-03-04', '8.00')]
    expect(freeDays(rows, '3.00', '2026-03-02', '2026-03-09')).toEqual([
      '2026-03-02',
      '2026-03-05',
      '2026-03-06',
      '2026-03-09',
    ])
  })

  test('is never split over a shortened day', () => {
    expect(freeDays([row('2026-03-02', '0', '4.00')], '6.00', '2026-03-02', '2026-03-03')).toEqual([
      '2026-03-03',
    ])
  })

  test('says what is free on the day, of which it takes its own hours', () => {
    const [first] = pickFreeDays(MONDAY_TO_FRIDAY, [row('2026-03-02', '2.50')], '3.00', {
      fromDay: '2026-03-02',
      lastDay: '2026-03-02',
      count: 1,
    })
    expect(first).toEqual({
      day: '2026-03-02',
      free: '5.50',
      shares: [{ day: '2026-03-02', hours: '3.00' }],
      parts: ['am', 'pm'],
    })
  })
})

describe('a longer job', () => {
  test('takes free days one after the other; only its last may hold others', () => {
    const rows = [row('2026-03-04', '3.00'), row('2026-03-06', '3.01')]
    // 13 hours are a day and 5 hours more.
    expect(freeDays(rows, '13.00', '2026-03-02', '2026-03-09')).toEqual([
      '2026-03-02',
      '2026-03-03',
      '2026-03-09',
    ])
  })

  test('passes weekends and closed days, and takes a longer day whole', () => {
    const roomOn = roomsOf(MONDAY_TO_FRIDAY, [
      row('2026-03-09', '0', '0.00'),
      row('2026-03-10', '0', '10.00'),
    ])
    expect(shareOut('21.00', '2026-03-06', '8.00', roomOn)).toEqual([
      { day: '2026-03-06', hours: '8.00' },
      { day: '2026-03-10', hours: '10.00' },
      { day: '2026-03-11', hours: '3.00' },
    ])
  })

  test('fits one day that has been made long enough', () => {
    expect(freeDays([row('2026-03-03', '0', '12.00')], '12.00', '2026-03-03', '2026-03-03')).toEqual([
      '2026-03-03',
    ])
  })

  test('can not be planned when it is longer than sixty work days', () => {
    const roomOn = roomsOf(MONDAY_TO_FRIDAY, [])
    expect(shareOut('480.00', '2026-03-02', '8.00', roomOn)).toHaveLength(60)
    expect(shareOut('480.25', '2026-03-02', '8.00', roomOn)).toBeUndefined()
  })
})

// Each zone's own summer time in 2026, and the year end; Auckland's day is ahead of New York's.
describe('the first day is tomorrow where the business is', () => {
  test.each([
    ['UTC', '2026-12-31T23:59:59Z', '2027-01-01'],
    ['UTC', '2027-01-01T00:00:00Z', '2027-01-02'],
    ['America/New_York', '2027-01-01T04:59:59Z', '2027-01-01'],
    ['America/New_York', '2027-01-01T05:00:00Z', '2027-01-02'],
    ['America/New_York', '2026-03-08T04:59:59Z', '2026-03-08'],
    ['America/New_York', '2026-03-08T05:00:00Z', '2026-03-09'],
    ['America/New_York', '2026-03-09T03:59:59Z', '2026-03-09'],
    ['America/New_York', '2026-11-01T03:59:59Z', '2026-11-01'],
    ['America/New_York', '2026-11-02T04:59:59Z', '2026-11-02'],
    ['Pacific/Auckland', '2026-12-31T10:59:59Z', '2027-01-01'],
    ['Pacific/Auckland', '2026-12-31T11:00:00Z', '2027-01-02'],
    ['Pacific/Auckland', '2026-04-04T10:59:59Z', '2026-04-05'],
    ['Pacific/Auckland', '2026-04-05T11:59:59Z', '2026-04-06'],
    ['Pacific/Auckland', '2026-09-26T11:59:59Z', '2026-09-27'],
    ['Pacific/Auckland', '2026-09-27T10:59:59Z', '2026-09-28'],
    ['America/New_York', '2028-02-28T12:00:00Z', '2028-02-29'],
  ])('%s at %s: %s', (time_zone, now, day) => {
    expect(earliestDay({ time_zone, notice_days: 1 }, Temporal.Instant.from(now))).toBe(day)
  })

  test('days run on over summer time, the leap day and the year end', () => {
    const daily = { working_days: [1, 2, 3, 4, 5, 6, 7], labor_hours_a_day: '8.00' }
    for (const [fromDay, lastDay, days] of [
      ['2026-03-07', '2026-03-09', ['2026-03-07', '2026-03-08', '2026-03-09']],
      ['2026-10-31', '2026-11-02', ['2026-10-31', '2026-11-01', '2026-11-02']],
      ['2026-12-31', '2027-01-01', ['2026-12-31', '2027-01-01']],
      ['2028-02-28', '2028-03-01', ['2028-02-28', '2028-02-29', '2028-03-01']],
    ] as const) {
      const found = pickFreeDays(daily, [], '8.00', { fromDay, lastDay, count: 10 })
      expect(found.map(({ day }) => day)).toEqual(days)
    }
  })
})
