import { expect, test } from 'vitest'
import { rateFigures } from '../../src/estimate/table/rate-table.ts'
import { rowsOf } from '../../src/estimate/table/rows.ts'
import { testTable } from '../estimate/jobs.ts'
import { leavesOf } from '../rates/csv/leaves.ts'
import { markedTable } from './marked-table.ts'

test('every figure that its row keeps for the owner is marked where a leak of it is looked for', () => {
  const { table, markers } = markedTable(testTable())
  const spelled = new Set(markers.flatMap(({ spellings }) => spellings))
  const marked = leavesOf(table)
    .filter(({ value }) => spelled.has(String(value)))
    .map(({ path }) => path.map(step => (/^\d+$/.test(step) ? '*' : step)).join('.'))
  const secret = rowsOf(rateFigures).flatMap(({ path, secret }) => (secret ? [path] : []))
  expect(secret.length).toBeGreaterThan(30)
  const isMarked = (path: string) => marked.some(leaf => leaf === path || leaf === `${path}.*`)
  expect(secret.filter(path => !isMarked(path))).toEqual([])
})
