import { globSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { KINDS } from '../faults/kinds.ts'
import { type Report, seedIn } from '../faults/report.ts'
import { isGood, tableOf, unmatched, type Went } from '../faults/table.ts'

const ROOT = join(import.meta.dirname, '../..')
const report: Report = {
  passed: 2,
  failed: 0,
  skipped: 0,
  projects: ['embedded', 'postgres'],
  files: ['tests/letters/retries.test.ts', 'tests/lib/sums.test.ts'],
  failures: [],
}

const went = (files: string[], instead: Partial<Report> = {}): Went => ({
  kind: { what: 'a mail server away', files },
  tries: '1',
  reports: [{ ...report, ...instead }],
  seconds: 12.4,
  seed: '77',
  endedWell: true,
})

test('every kind of fault names tests that are there', () => {
  const files = globSync('tests/**/*.test.ts', { cwd: ROOT })
  expect(
    KINDS.map(({ what, files: named, more = [] }) => [what, unmatched([...named, ...more], files)]),
  ).toEqual(KINDS.map(({ what }) => [what, []]))
})

test('a run fails when one of the files that it names ran no test, and says which', () => {
  expect(isGood(went(['letters/retries', 'lib/']))).toBe(true)
  const renamed = went(['letters/retries', 'letters/renamed'])
  expect(isGood(renamed)).toBe(false)
  expect(tableOf([renamed])).toContain('a mail server away: no test ran for letters/renamed')
})

test.each([
  ['nothing ran', { passed: 0 }],
  ['a test failed', { failed: 1 }],
  ['a test was left out', { skipped: 1 }],
])('it fails when %s', (_what, instead) => {
  expect(isGood(went(['lib/'], instead))).toBe(false)
})

test('the table has the stores, how often, the seed, and what failed with the seed of its own', () => {
  const [head, line, failure] = tableOf([
    went(['lib/'], {
      failed: 1,
      failures: [`a bed${seedIn('Property failed\n{ seed: -12, path: "3:1" }')}`],
    }),
  ]).split('\n')
  expect(head!.split(/ +/)).toEqual(['what', 'stores', 'tries', 'seed', 'passed', 'failed', 'seconds'])
  expect(line!.split(/ {2,}/)).toEqual(['a mail server away', 'both', '1', '77', '2', '1', '12'])
  expect(failure).toBe('a mail server away: failed, with TEST_SEED=77: a bed (seed: -12, path: "3:1")')
})
