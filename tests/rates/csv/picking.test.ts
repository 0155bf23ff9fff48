import { expect, test } from 'vitest'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { tableFromFiles } from '../../../src/rates/csv/table-from-files.ts'
import { edited, faultsOf, tableOf } from './edited.ts'
import { fullTable } from './tables.ts'

const FILE = 'finishes.csv'

test('who can pick a finish, and what stands in for it, is told by yes, no and slugs', () => {
  const [first] = tableOf(edited(FILE, ['yes,no,pine-straw stone', 'no,YES,"stone, compost"'])).finishes
  expect(first).toMatchObject({ offered: false, soldOut: true, substitutes: ['stone', 'compost'] })
})

test('a slug that a spreadsheet would make a date or a number of comes back as it was', () => {
  const table = fullTable()
  for (const slug of ['may-2', '007']) {
    const finishes = table.finishes.map((one, index) =>
      index === 5 ? { ...one, slug } : { ...one, substitutes: [slug] },
    )
    const files = filesOf({ ...table, finishes })
    expect(files[FILE]).toContain(`,yes,no,'${slug},`)
    const read = tableFromFiles(files, table)
    expect(read.ok && read.table.finishes[0]!.substitutes).toEqual([slug])
  }
})

test('what can’t be is told with its row and column', () => {
  expect(faultsOf(edited(FILE, ['yes,no,pine-straw stone', 'yes,no,pine-straw gold']))).toEqual([
    'finishes.csv 2 substitutes: “pine-straw gold”: there is no finish “gold”',
  ])
  expect(faultsOf(edited(FILE, ['yes,no,pine-straw stone', 'maybe,no,stone stone']))).toEqual([
    'finishes.csv 2 offered: “maybe”: yes or no',
  ])
  expect(faultsOf(edited(FILE, ['yes,no,pine-straw stone', 'yes,no,stone stone']))).toEqual([
    'finishes.csv 2 substitutes: “stone stone”: “stone” is already listed above',
  ])
  const none = faultsOf(edited(FILE, [/,yes,no,/g, ',yes,yes,']))
  expect(none).toHaveLength(6)
  expect(none[5]).toBe(
    'finishes.csv 7 sold out: “yes”: homeowners need at least one material that is shown and not sold out',
  )
})
