import { expect, test } from 'vitest'
import { minutesInWords, readMinutes } from '../../src/closing/minutes.ts'

test.each([
  ['3:30', 210],
  ['3.5', 210],
  ['3,5 h', 210],
  ['.25', 15],
  ['8', 480],
  ['45 min', 45],
  ['0', 0],
  ['1000:00', null],
  ['3:75', null],
  ['-1', null],
  ['all day', null],
  ['', null],
])('%s is read as %s minutes', (typed, minutes) => {
  expect(readMinutes(typed)).toBe(minutes)
})

test('minutes are shown as hours and minutes', () => {
  expect([0, 5, 60, 615].map(minutesInWords)).toEqual(['0:00', '0:05', '1:00', '10:15'])
})
