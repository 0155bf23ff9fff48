import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../../src/estimate/table/rate-table-schema.ts'
import { differenceOf } from '../../../src/rates/csv/difference.ts'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { readFiles } from '../../../src/rates/csv/read-files.ts'
import { tableFromFiles } from '../../../src/rates/csv/table-from-files.ts'
import { filesFromZip, zipOf } from '../../../src/rates/csv/zip.ts'
import { testTable } from '../../estimate/jobs.ts'
import { changedAt, type JsonSchema, leavesOf, othersThan, pathsOfSchema } from './leaves.ts'
import { anyTable, fullTable } from './tables.ts'

const AT = Temporal.Instant.from('2026-03-02T15:00:00Z')

function throughZip(table: RateTable): RateTable {
  const unzipped = filesFromZip(zipOf(filesOf(table), AT))
  if (!unzipped.ok) throw new Error(JSON.stringify(unzipped.faults))
  const read = tableFromFiles(unzipped.files, table)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.table
}

describe('a rate table written as CSV files and read again', () => {
  it('is the same, to the letter, whatever is in it', () => {
    fc.assert(
      fc.property(anyTable, table => {
        expect(JSON.stringify(throughZip(table))).toBe(JSON.stringify(table))
      }),
      { numRuns: 60 },
    )
  })

  it('is the same in both systems of units', () => {
    for (const units of ['us', 'metric'] as const)
      expect(throughZip(testTable({}, units))).toEqual(testTable({}, units))
  })
})

// So many figures lie between those that are changed at once.
const APART = 23

const leaves = leavesOf(fullTable())

describe('every figure of a rate table', () => {
  it('is in the table that these tests change, as its schema has them', () => {
    const schema = z.toJSONSchema(rateTableSchema, { io: 'input' }) as JsonSchema
    const expected = new Set(pathsOfSchema(schema))
    const found = new Set(
      leaves.map(({ path }) => path.map(step => (/^\d+$/.test(step) ? '*' : step)).join('.')),
    )
    expect([...expected].filter(path => !found.has(path))).toEqual([])
    expect(expected.size).toBeGreaterThan(120)
  })

  // A pack's kind says which sizes it has: each kind is in the table as it is.
  const changeable = leaves.filter(({ path }) => path.at(-1) !== 'kind')

  it('survives when it is changed, and the difference shows it', () => {
    const table = fullTable()
    for (const { path, value } of changeable) {
      for (const other of othersThan(value)) {
        const changed = changedAt(table, { path, value: other })
        expect({ path, seen: differenceOf(table, changed).length > 0 }).toEqual({ path, seen: true })
      }
    }
    // Written and read some at a time, each with others that stand elsewhere: a fault names its own.
    const turns = changeable.map(({ path, value }, nth) =>
      othersThan(value).map(other => ({
        path,
        value: typeof other === 'string' && /^[a-z]/.test(other) ? `${other}${nth}` : other,
      })),
    )
    for (let turn = 0; turn < Math.max(...turns.map(({ length }) => length)); turn++)
      for (let first = 0; first < APART; first++) {
        const some = turns.filter((_, nth) => nth % APART === first).flatMap(all => all[turn] ?? [])
        const changed = some.reduce((all, one) => changedAt(all, one), table)
        const { parts, faults } = readFiles(filesOf(changed))
        expect(faults).toEqual([])
        expect(parts.body).toEqual(changed)
      }
  })

  it('may be left open where the schema lets it be', () => {
    const table = fullTable()
    const open = changeable.filter(
      leaf =>
        leaf.value !== null && rateTableSchema.safeParse(changedAt(table, { ...leaf, value: null })).success,
    )
    expect(open.map(({ path }) => path.join('.'))).toContain('floors.margin')
    for (const { path } of open) {
      const changed = changedAt(table, { path, value: null })
      expect(throughZip(changed)).toEqual(changed)
      expect({ path, seen: differenceOf(table, changed).length > 0 }).toEqual({ path, seen: true })
    }
    const untaxed = { ...table, tax: null, travel: [], carriers: [] }
    expect(throughZip(untaxed)).toEqual(untaxed)
    expect(differenceOf(table, untaxed).length).toBeGreaterThan(0)
  })
})
