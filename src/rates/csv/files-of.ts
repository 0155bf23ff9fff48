import type { RateTable } from '../../estimate/table/rate-table.ts'
import { unitOf } from '../../estimate/units/unit-of.ts'
import { allFiles, GUIDE } from './all-files.ts'
import { guarded } from './cells.ts'
import { writeCsv } from './csv.ts'

/** A rate table as CSV files by their names, safe to open in a spreadsheet, with a guide to their columns. */
export function filesOf(table: RateTable, csvFiles = allFiles): Record<string, string> {
  const files = csvFiles.map(({ file, columns, linesOf }) => {
    const names = columns.map(({ name }) => name)
    const lines = linesOf(table).map(({ cells }) => names.map(name => cells[name] ?? ''))
    return [file, writeCsv([names, ...lines])]
  })
  const guide = guideOf(table, csvFiles).map(({ file, column, unit, meaning }) => [
    file,
    column,
    unit,
    meaning,
  ])
  return {
    ...Object.fromEntries(files),
    [GUIDE]: writeCsv([['file', 'column', 'unit', 'meaning'], ...guide.map(row => row.map(guarded))]),
  }
}

/** What each column of each file means, with the unit that it has in this table. */
export function guideOf(
  table: Pick<RateTable, 'units' | 'currency'>,
  csvFiles = allFiles,
): { file: string; column: string; unit: string; meaning: string }[] {
  return csvFiles.flatMap(({ file, columns }) =>
    columns.map(({ name, unit, meaning }) => ({
      file,
      column: name,
      unit: unitOf(unit ?? '', table),
      meaning: unitOf(meaning, table),
    })),
  )
}
