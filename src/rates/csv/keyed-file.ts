import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { ownRows, type Row } from '../../estimate/table/rows.ts'
import { unitOf } from '../../estimate/units/unit-of.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import { fieldOf, meaningOf, sharedFields } from './fields-of.ts'
import type { Column, Field, Line, RowRead } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

/** A row that is always there; its fields' paths begin at the table. unit and meaning stand beside them, for people. */
interface KeyedRow {
  key: string
  was?: string
  words: string
  fields: Field[]
  unit?: string
  meaning?: string
}

const VALUE: Column[] = [
  { name: 'value', meaning: 'the figure or word' },
  { name: 'unit', meaning: 'not read', explains: true },
  { name: 'meaning', meaning: 'not read', explains: true },
]

/**
 * A CSV file of names and values: a row for each figure of the catalogue that is of this file. `part` is what it holds where the
 * table may have none: the file is empty then.
 */
export function valuesFile(figures: z.ZodObject, file: string, about: string, part?: 'tax'): CsvFile {
  const rows = rowsIn(file, figures).map(row => ({
    key: row.name,
    ...(row.was ? { was: row.was } : {}),
    words: row.name,
    fields: [{ ...fieldOf(row), name: 'value' }],
    meaning: meaningOf(row),
    unit: row.unit ?? '',
  }))
  const name = { name: 'name', meaning: 'which figure; every name has its row' }
  return keyedFile({ file, about, columns: [name, ...VALUE] }, rows, part)
}

/** A CSV file in which figures stand beside each other that are of the same thing, as an error and how much of it is shared. */
export function gridFile(
  figures: z.ZodObject,
  { file, about, key, words }: { file: string; about: string; key: string; words: string },
): CsvFile {
  const rows = rowsIn(file, figures)
  const keys = [...new Set(rows.map(({ row }) => row!))]
  return keyedFile(
    { file, about, columns: [{ name: key, meaning: keys.join(', ') }, ...sharedFields(rows)] },
    keys.map(one => ({
      key: one,
      words: `${words} ${one}`,
      fields: rows.filter(({ row }) => row === one).map(fieldOf),
    })),
  )
}

function rowsIn(file: string, figures: z.ZodObject): Row[] {
  return ownRows(figures).filter(row => (row.file ?? 'settings.csv') === file)
}

/** A CSV file with a fixed set of rows, each known by its first cell, in any order. */
function keyedFile(
  { file, about, columns }: Pick<CsvFile, 'file' | 'about' | 'columns'>,
  rows: KeyedRow[],
  part?: 'tax',
): CsvFile {
  const key = columns[0]!.name
  const lineOf = (row: KeyedRow, table: RateTable): Line => ({
    key: row.key,
    words: row.words,
    cells: {
      [key]: row.key,
      unit: unitOf(row.unit ?? '', table),
      meaning: unitOf(row.meaning ?? '', table),
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
      else readKeyed(file, key, rows, read, parts)
    },
  }
}

function readKeyed(
  file: string,
  keyColumn: string,
  rows: KeyedRow[],
  read: RowRead[],
  parts: TableParts,
): void {
  const seen = new Set<string>()
  for (const row of read) {
    const key = row.cells[keyColumn]!.trim()
    const known = rows.find(one => [one.key, one.was].some(name => name?.toLowerCase() === key.toLowerCase()))
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
