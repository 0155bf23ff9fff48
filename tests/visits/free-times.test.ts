import { describe, expect, test } from 'vitest'
import { freeTimes, isFreeTime, overlapping, type VisitRules } from '../../src/visits/free-times.ts'
import { wishesOf } from '../../src/visits/wished-hours.ts'

const rules: VisitRules = {
  time_zone: 'America/Chicago',
  working_days: [1, 2, 3, 4, 5],
  visit_minutes: 60,
  visit_from_hour: 8,
  visit_to_hour: 18,
}

/** Times as "Tue 09:30" where the business is. */
function shown(times: Temporal.Instant[], timeZone = rules.time_zone) {
  return times.map(time => {
    const local = time.toZonedDateTimeISO(timeZone)
    return `${local.toPlainDate()} ${local.toPlainTime().toString({ smallestUnit: 'minute' })}`
  })
}
const at = (local: string, timeZone = rules.time_zone) =>
  Temporal.PlainDateTime.from(local).toZonedDateTime(timeZone).toInstant()

describe('free times', () => {
  test('are the first, the middle and the last of each working day, from a moment on', () => {
    // Friday, March 6, 2026, noon; the next working day is Monday.
    expect(shown(freeTimes(rules, [], at('2026-03-06T12:00'), { count: 5 }))).toEqual([
      '2026-03-06 12:30',
      '2026-03-06 14:30',
      '2026-03-06 17:00',
      '2026-03-09 08:00',
      '2026-03-09 12:30',
    ])
  })

  test('overlap no other visit, neither by their start nor by their end', () => {
    const taken = [{ starts_at: at('2026-03-09T08:30').toString(), minutes: 90 }]
    expect(overlapping(taken, at('2026-03-09T07:45'), 60)).toBeDefined()
    expect(overlapping(taken, at('2026-03-09T09:59'), 60)).toBeDefined()
    expect(overlapping(taken, at('2026-03-09T10:00'), 60)).toBeUndefined()
    expect(overlapping(taken, at('2026-03-09T07:30'), 60)).toBeUndefined()
    expect(shown(freeTimes(rules, taken, at('2026-03-09T00:00'), { count: 1 }))).toEqual(['2026-03-09 10:00'])
    expect(isFreeTime(rules, taken, at('2026-03-09T09:30'))).toBe(false)
    expect(isFreeTime(rules, taken, at('2026-03-09T10:30'))).toBe(true)
    expect(isFreeTime(rules, [], at('2026-03-09T10:15'))).toBe(false)
    expect(isFreeTime(rules, [], at('2026-03-08T10:00'))).toBe(false)
    expect(isFreeTime(rules, [], at('2026-03-09T17:30'))).toBe(false)
  })

  test('that suit what the homeowner wrote come first', () => {
    const from = at('2026-03-09T00:00')
    const times = freeTimes(rules, [], from, { count: 40, preferred: 'Thursdays after 3 please' })
    expect(shown(times).slice(0, 3)).toEqual(['2026-03-12 15:00', '2026-03-12 16:00', '2026-03-12 17:00'])
    expect(shown(times)).toContain('2026-03-09 08:00')
    // Nothing of theirs can be read: as if they had said nothing.
    const unread = freeTimes(rules, [], from, { count: 3, preferred: 'whenever' })
    expect(unread).toEqual(freeTimes(rules, [], from, { count: 3 }))
  })

  // The clocks go forward at 2 on Sunday, March 8, 2026, and back on November 1; in New Zealand on September 27.
  test.each([
    ['America/Chicago', '2026-03-08', 2, ['2026-03-08 01:00', '2026-03-08 01:30', '2026-03-08 03:00']],
    ['Pacific/Auckland', '2026-09-27', 2, ['2026-09-27 01:00', '2026-09-27 01:30', '2026-09-27 03:00']],
    ['America/Chicago', '2026-11-01', 1, ['2026-11-01 01:00', '2026-11-01 01:30', '2026-11-01 02:00']],
  ])(
    'an hour that the clocks skip in %s is none, and one that comes twice is one',
    (timeZone, day, _hour, expected) => {
      const night = {
        ...rules,
        time_zone: timeZone,
        working_days: [7],
        visit_minutes: 30,
        visit_from_hour: 1,
        visit_to_hour: 4,
      }
      const half = (time: string) => isFreeTime(night, [], at(`${day}T${time}`, timeZone))
      const found = ['01:00', '01:30', '02:00', '02:30', '03:00'].filter(time => {
        const wanted = Temporal.PlainDateTime.from(`${day}T${time}`)
        return wanted.toZonedDateTime(timeZone).toPlainDateTime().equals(wanted) && half(time)
      })
      expect(found.map(time => `${day} ${time}`).slice(0, 3)).toEqual(expected)
      const all = freeTimes(night, [], at(`${day}T00:00`, timeZone), { count: 3 })
      expect(shown(all, timeZone).every(time => time.startsWith(day))).toBe(true)
    },
  )
})

test.each<[string, ReturnType<typeof wishesOf>]>([
  ['Mornings', { from: 0, to: 12 }],
  ['weekday afternoons', { from: 12, to: 17, weekdays: [1, 2, 3, 4, 5] }],
  ['after 4', { from: 16, to: 24 }],
  ['After four on weekdays', { from: 16, to: 24, weekdays: [1, 2, 3, 4, 5] }],
  ['before eleven', { from: 0, to: 11 }],
  ['después de las cinco', { from: 17, to: 24 }],
  ['after some rain', undefined],
  ['Before 10 a.m. on Mon or Wed', { from: 0, to: 10, weekdays: [1, 3] }],
  ['por la tarde, los martes', { from: 12, to: 17, weekdays: [2] }],
  ['después de las 5', { from: 17, to: 24 }],
  ['weekends', { from: 0, to: 24, weekdays: [6, 7] }],
  ['any time but not mornings', undefined],
  ['call first', undefined],
  ['', undefined],
])('good times “%s” are read', (text, wish) => {
  expect(wishesOf(text)).toEqual(wish)
})
