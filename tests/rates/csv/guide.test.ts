import { expect, test } from 'vitest'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import type { Row } from '../../../src/estimate/table/rows.ts'
import { sharedFields } from '../../../src/rates/csv/fields-of.ts'
import { filesOf, guideOf } from '../../../src/rates/csv/files-of.ts'
import { fullTable } from './tables.ts'

const metric: RateTable = { ...fullTable(), units: 'metric', currency: 'EUR' }

function columnIn(file: string, column: string, table = fullTable()) {
  return guideOf(table).find(one => one.file === file && one.column === column)
}

function settingIn(table: RateTable, name: string) {
  return filesOf(table)
    ['settings.csv']!.split('\r\n')
    .find(line => line.startsWith(name))
}

// What an owner may write into the words of a warning.
const written = (text: string) => text.replaceAll('{figure}', '')

test('no file and no page shows a unit in braces', () => {
  for (const table of [fullTable(), metric]) {
    for (const [file, text] of Object.entries(filesOf(table)))
      expect([file, /[{}].*/.exec(written(text))?.[0]]).toEqual([file, undefined])
    expect(guideOf(table).filter(one => /[{}]/.test(written(JSON.stringify(Object.values(one)))))).toEqual([])
  }
  expect(settingIn(fullTable(), '"spreading, lower"')).toContain('cubic yard')
  expect(settingIn(metric, '"spreading, lower"')).toContain('cubic meter')
})

test.each([
  ['measuring.csv', 'error', ['with a tape', 'in paces', 'by eye']],
  ['lying.csv', 'depth', ['bare', 'thin', 'fair', 'thick', 'not sure']],
  ['planted.csv', 'share', ['few', 'half', 'full']],
])('a column of %s means what each of its rows says: %s', (file, column, rows) => {
  for (const row of rows) expect(columnIn(file, column)?.meaning).toContain(row)
})

test.each([
  ['finishes.csv', 'cautions', 'with spaces between'],
  ['finishes.csv', 'substitutes', 'with spaces between'],
  ['finishes.csv', 'priced by', 'rates.csv'],
  ['extras.csv', 'cautions', 'with spaces between'],
  ['job-sizes.csv', 'from size', 'rates.csv'],
])('what only a spreadsheet has to know is in the guide: %s, %s', (file, column, words) => {
  expect(columnIn(file, column)?.meaning).toContain(words)
})

test('nothing in the files speaks of where something stands on a page, or of a form', () => {
  const said = [...guideOf(fullTable()).map(({ meaning }) => meaning), ...Object.values(filesOf(fullTable()))]
  for (const text of said)
    expect(/\b(above|below|the one before it|5; 10)\b.*/.exec(text)?.[0]).toBeUndefined()
})

test('what is paid by the hour, the job or the trip says so', () => {
  expect(settingIn(fullTable(), 'overhead')).toContain('USD per labor hour')
  expect(settingIn(metric, 'overhead')).toContain('EUR per labor hour')
  expect(settingIn(fullTable(), '"truck, each job"')).toContain('USD per job')
  expect(settingIn(fullTable(), '"truck, each trip"')).toContain('USD per trip')
  expect(settingIn(fullTable(), '"floor, pay"')).toContain('USD per labor hour')
  expect(columnIn('price-breaks.csv', 'from')?.unit).toBe('bags, bales, yd3, short ton, rolls or pieces')
})

test('a column shared by kinds of entry has the units that there are, each once', () => {
  const row = (unit?: string): Row => ({
    kind: 'figure',
    name: 'least',
    label: 'Least',
    path: 'least',
    empty: false,
    ...(unit ? { unit } : {}),
  })
  const unitsOf = (...rows: Row[]) => sharedFields(rows)[0]?.unit
  expect(unitsOf(row('bags'), row())).toBe('bags')
  expect(unitsOf(row(), row('bags'))).toBe('bags')
  expect(unitsOf(row('share'), row('h'))).toBe('share, h')
  expect(unitsOf(row('bags'), row('bales'), row('bags'))).toBe('bags, bales')
})
