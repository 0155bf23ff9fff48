import { expect, test } from 'vitest'
import { readSpokenBeds } from '../../src/requests/put-in-beds.ts'
import { testTable } from '../estimate/jobs.ts'

const read = (text: string) => {
  const spoken = readSpokenBeds(text, 'compost', testTable())
  if (!spoken.ok) return spoken.fault
  const { stops = [], beds } = spoken.told
  const named = beds.map(({ stop, sizes }) => [stop, Object.values(sizes).filter(Boolean).join()].join(' '))
  return [stops.map(({ name, note }) => (note ? `${name} (${note})` : name)), named]
}

test('stops are named before their beds, on the line or above it, with a note in parentheses', () => {
  expect(read('North entrance (gate code 12): 20 by 5; 9 across\nSouth:\n12 by 3\n300 square feet')).toEqual([
    ['North entrance (gate code 12)', 'South'],
    ['0 20 by 5', '0 9', '1 12 by 3', '1 300 square feet'],
  ])
})

test('many are told in one line, and the same as another', () => {
  expect(read('Door 1 to 3: 24 by 4\nEast: same; 6 by 3\nWest: same as door 2')).toEqual([
    ['Door 1', 'Door 2', 'Door 3', 'East', 'West'],
    ['0 24 by 4', '1 24 by 4', '2 24 by 4', '3 24 by 4', '3 6 by 3', '4 24 by 4'],
  ])
})

test('without a name there are no stops, and with one every bed has to be at one', () => {
  expect(read('20 by 5\n9 across')).toEqual([[], [' 20 by 5', ' 9']])
  expect(read('20 by 5\nNorth: 9 across')).toBe('“20 by 5”: put it under a stop, such as “North entrance:”.')
})

test.each([
  ['North:\nSouth: 20 by 5', '“North”: write its beds.'],
  ['North: 20 by 5\nnorth : 9 across', '“north”: two stops have that name.'],
  ['Door 1 to 61: 20 by 5', 'Write 60 stops at most.'],
  [`Door 1 to 60:${'20 by 5;'.repeat(6)}`, 'Write 300 beds at most.'],
  [`${'n'.repeat(81)}: 20 by 5`, `“${'n'.repeat(40)}…”: that name is too long.`],
  ['20 by 5\n'.repeat(41), 'Write 40 beds at most.'],
])('refuses %j kindly', (text, fault) => {
  expect(read(text)).toBe(fault)
})

test('an unreadable bed is named once, however many stops have it', () => {
  expect(read('Door 1 to 30: a hedge')).toMatch(/^“a hedge”: /)
})
