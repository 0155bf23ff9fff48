import { expect, test } from 'vitest'
import { completeTable, FORMAT, storedTable } from '../../src/estimate/table/complete-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { testTable } from './jobs.ts'
import { keptTables, workedOut } from './kept-formats.ts'

// The sums were worked out by the program as it was when tables were stored so: what is claimed is that they stay.
test.each(keptTables())('a table of format $format, $about, prices to the same cent', ({ table, jobs }) => {
  const now = completeTable(table)
  expect(rateTableSchema.safeParse(now).error?.issues).toBeUndefined()
  expect(jobs.length).toBeGreaterThan(0)
  for (const job of jobs) expect(workedOut(job, now)).toEqual(job)
})

test('of every format there is a kept table', () => {
  const formats = new Set(keptTables().map(({ format }) => format))
  expect([...formats]).toEqual(Array.from({ length: FORMAT }, (_, index) => index + 1))
})

test('a promise over 95 % that an older table gave is one of 95 % now', () => {
  const promised = (promise: string) => completeTable({ ...testTable({ promise }), format: 4 }).promise
  expect(promised('0.99')).toBe('0.95')
  expect(promised('0.951')).toBe('0.95')
  expect(promised('0.95')).toBe('0.95')
  expect(promised('0.80')).toBe('0.80')
})

test('no table may promise more than 95 %', () => {
  const fault = (promise: string) =>
    rateTableSchema
      .safeParse(testTable({ promise }))
      .error?.issues.map(({ path, message }) => [path, message])
  expect(fault('0.95')).toBeUndefined()
  expect(fault('0.96')).toEqual([[['promise'], 'from 0.5 to 0.95']])
})

test('reading changes nothing of what is stored', () => {
  for (const { table } of keptTables()) {
    const before = JSON.stringify(table)
    completeTable(table)
    expect(JSON.stringify(table)).toBe(before)
  }
})

test('what is stored now says its format, and labor; it is read as it was', () => {
  const stored = storedTable(testTable())
  expect(stored.format).toBe(FORMAT)
  expect(Object.keys(stored)).toEqual(expect.arrayContaining(['labor']))
  expect(Object.keys(stored)).not.toContain('labour')
  expect(completeTable(stored)).toEqual(testTable())
  expect(Object.keys(completeTable(stored))).not.toContain('format')
})

test('a table of a format that isn’t known yet is refused, not guessed at', () => {
  expect(() => completeTable({ ...testTable(), format: FORMAT + 1 })).toThrow(`format ${FORMAT + 1}`)
})
