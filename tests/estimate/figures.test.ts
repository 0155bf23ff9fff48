import { expect, test } from 'vitest'
import { z } from 'zod'
import { rateFigures } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { rowsOf } from '../../src/estimate/table/rows.ts'
import { startOf } from '../../src/estimate/table/values.ts'
import { type JsonSchema, leavesOf, pathsOfSchema } from '../rates/csv/leaves.ts'
import { fullTable } from '../rates/csv/tables.ts'

const starred = (path: string[]) => path.map(step => (/^\d+$/.test(step) ? '*' : step)).join('.')
const rows = rowsOf(rateFigures)
const paths = new Set(rows.map(({ path }) => path))
// A row of a list of codes, words, figures or layers stands for all of them; a pack's kind is which rows it has.
const isDeclared = (leaf: string) =>
  paths.has(leaf) || paths.has(leaf.replace(/\.\*(\.\w+)?$/, '')) || /packs\.\*\.kind$/.test(leaf)

test('every leaf of a rate table is a figure of the catalogue, and every figure is there', () => {
  const schema = z.toJSONSchema(rateTableSchema, { io: 'input' }) as JsonSchema
  expect(pathsOfSchema(schema).filter(leaf => !isDeclared(leaf))).toEqual([])
  const leaves = leavesOf(fullTable()).map(({ path }) => starred(path))
  expect(leaves.filter(leaf => !isDeclared(leaf))).toEqual([])
  const isThere = (path: string) => leaves.some(leaf => leaf === path || leaf.startsWith(`${path}.`))
  expect([...paths].filter(path => !isThere(path))).toEqual([])
})

test('every figure of which there is one starts as something that the table takes', () => {
  for (const units of ['us', 'metric'] as const) {
    const table = { ...(startOf(rateFigures, units) as object), units, currency: 'USD' }
    expect(rateTableSchema.safeParse(table).error?.issues).toBeUndefined()
  }
})
