import type { RateTable } from '../../estimate/table/rate-table.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import { unitOf } from './file-units.ts'
import type { Column, Field, Line, Row } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

/** A row that is always there; its fields' paths begin at the table. unit and meaning stand beside them, for people. */
export interface KeyedRow {
  key: string
  fields: Field[]
  unit?: string
  meaning?: string
}

/** A CSV file with a fixed set of rows, each known by its first cell, in any order. */
export function keyedFile(csvFile: {
  file: string
  about: string
  columns: Column[]
  rows: KeyedRow[]
  wordsOf: (key: string) => string
  /** The part of the table that it holds, where the table may have none: the file is empty then. */
  part?: 'tax'
}): CsvFile {
  const { file, about, columns, rows, wordsOf, part } = csvFile
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
    read: (read, parts) => {
      if (part && read.length === 0) parts.put(part, null)
      else readKeyed(file, keyColumn, rows, read, parts)
    },
  }
}

function readKeyed(file: string, keyColumn: string, rows: KeyedRow[], read: Row[], parts: TableParts): void {
  const seen = new Set<string>()
  for (const row of read) {
    const key = row.cells[keyColumn]!.trim()
    const known = rows.find(one => one.key.toLowerCase() === key.toLowerCase())
    if (!known) parts.fault(row, keyColumn, `“${key}”: one of ${rows.map(one => one.key).join('; ')}`)
    else if (seen.has(known.key)) parts.fault(row, keyColumn, `“${key}”: already given above`)
    else {
      seen.add(known.key)
      for (const { name, path, cell } of known.fields)
        parts.put(path, cell.read(row.cells[name]!, row.decimalComma), placeOf(row, name))
    }
  }
  for (const { key, fields } of rows.filter(one => !seen.has(one.key))) {
    const place = { file, row: 1, column: keyColumn }
    parts.faults.push({ ...place, message: `no row for “${key}”` })
    for (const { path } of fields) parts.put(path, undefined, { ...place, text: '' })
  }
}
