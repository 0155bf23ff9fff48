import type { RateTable } from '../../estimate/table/rate-table.ts'
import { type Draft, placeOf } from './draft.ts'
import { type Column, cellsOf, type Field, type Line, type Row, type Sheet } from './sheet.ts'
import { unitOf } from './sheet-units.ts'

/** A row that is always there; its fields' paths begin at the table. unit and meaning stand beside them, for people. */
export interface KeyedRow {
  key: string
  fields: Field[]
  unit?: string
  meaning?: string
}

/** A sheet with a fixed set of rows, each known by its first cell, in any order. */
export function keyedSheet(sheet: {
  file: string
  about: string
  columns: Column[]
  rows: KeyedRow[]
  wordsOf: (key: string) => string
  /** The part of the table that it holds, where the table may have none: the sheet is empty then. */
  part?: 'tax'
}): Sheet {
  const { file, about, columns, rows, wordsOf, part } = sheet
  const keyColumn = columns[0]!.name
  const lineOf = (row: KeyedRow, table: RateTable): Line => ({
    key: row.key,
    words: wordsOf(row.key),
    cells: {
      [keyColumn]: row.key,
      unit: row.unit ? unitOf(row.unit, table) : '',
      meaning: row.meaning ?? '',
      ...cellsOf(row.fields, table),
    },
  })
  return {
    file,
    about,
    columns,
    ordered: false,
    linesOf: table => (part && table[part] === null ? [] : rows.map(row => lineOf(row, table))),
    read: (read, draft) => {
      if (part && read.length === 0) draft.put(part, null)
      else readKeyed(file, keyColumn, rows, read, draft)
    },
  }
}

function readKeyed(file: string, keyColumn: string, rows: KeyedRow[], read: Row[], draft: Draft): void {
  const seen = new Set<string>()
  for (const row of read) {
    const key = row.cells[keyColumn]!.trim()
    const known = rows.find(one => one.key.toLowerCase() === key.toLowerCase())
    if (!known) draft.fault(row, keyColumn, `“${key}”: one of ${rows.map(one => one.key).join('; ')}`)
    else if (seen.has(known.key)) draft.fault(row, keyColumn, `“${key}”: already given above`)
    else {
      seen.add(known.key)
      for (const { name, path, cell } of known.fields)
        draft.put(path, cell.read(row.cells[name]!, row.decimalComma), placeOf(row, name))
    }
  }
  for (const { key, fields } of rows.filter(one => !seen.has(one.key))) {
    const place = { file, row: 1, column: keyColumn }
    draft.faults.push({ ...place, message: `no row for “${key}”` })
    for (const { path } of fields) draft.put(path, undefined, { ...place, text: '' })
  }
}
