import { CsvError, parse } from 'csv-parse/sync'
import type { CsvFile } from './csv-file.ts'
import type { Column, CsvFault, RowRead } from './rows.ts'

const MOST_ROWS = 5000
// Spreadsheets may write many empty rows after the last.
const MOST_RECORDS = 20_000
const SEPARATORS = [',', ';', '\t']
const MARK = '\uFEFF'

/** Rows of cells as CSV by RFC 4180, with the mark by which spreadsheets know UTF-8. */
export function writeCsv(rows: string[][]): string {
  const quoted = (cell: string) =>
    /[",;\t\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell
  return MARK + rows.map(row => `${row.map(quoted).join(',')}\r\n`).join('')
}

/**
 * Reads one file by its columns, in whatever order they stand, of at most `mostRows` filled rows. Commas, semicolons or tabs part the cells, as the
 * column names show; with semicolons, figures may have a decimal comma. Empty rows are left out, and count.
 */
export function readCsv(
  { file, columns, mostRows = MOST_ROWS }: Pick<CsvFile, 'file' | 'columns' | 'mostRows'>,
  text: string,
): { rows: RowRead[]; faults: CsvFault[] } {
  const separator = separatorOf(text, columns)
  const records = recordsOf(text, separator)
  if (!Array.isArray(records))
    return { rows: [], faults: [{ file, row: records.row, column: '', message: records.message }] }
  const [header = [], ...rest] = records
  const names = header.map(name => nameNow(name.trim().toLowerCase(), columns))
  const faults = [...headerFaults(file, names, columns, rest), ...sizeFaults(file, rest, mostRows)]
  if (faults.length > 0) return { rows: [], faults }
  const rows = rest.map((record, index) => ({
    file,
    number: index + 2,
    decimalComma: separator === ';',
    cells: Object.fromEntries(
      columns.map(({ name }) => [name, record[names.indexOf(name.toLowerCase())] ?? '']),
    ),
  }))
  const long = rest.flatMap((record, index) => longFaults(file, record, index + 2, names.length))
  return { rows: rows.filter((_, index) => !isBlank(rest[index]!)), faults: long }
}

function nameNow(name: string, columns: Column[]): string {
  return columns.find(({ was }) => was === name)?.name.toLowerCase() ?? name
}

function recordsOf(text: string, delimiter: string): string[][] | { row: number; message: string } {
  try {
    return parse(text, {
      bom: true,
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      max_record_size: 100_000,
      to: MOST_RECORDS + 1,
    })
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const row = Number(error.records ?? 0) + 1
    if (error.code === 'CSV_MAX_RECORD_SIZE') return { row, message: 'a row of more than 100,000 characters' }
    return { row, message: 'a quotation mark " is out of place: one inside a cell is written twice' }
  }
}

// The one by which most columns are found.
function separatorOf(text: string, columns: Column[]): string {
  const [header = ''] = text.replace(MARK, '').split(/[\r\n]/, 1)
  const found = (separator: string) => {
    const names = header.split(separator).map(name => name.replaceAll('"', '').trim().toLowerCase())
    return columns.filter(({ name }) => names.includes(name.toLowerCase())).length
  }
  return SEPARATORS.reduce((best, one) => (found(one) > found(best) ? one : best))
}

function headerFaults(file: string, names: string[], columns: Column[], rest: string[][]): CsvFault[] {
  const at = (column: string, message: string) => ({ file, row: 1, column, message })
  const known = columns.map(({ name }) => name.toLowerCase())
  return [
    ...names.flatMap((name, index) => {
      if (name === '' && rest.every(record => (record[index] ?? '').trim() === '')) return []
      if (!known.includes(name)) return [at(name || letterOf(index), 'no such column in this file')]
      return names.indexOf(name) === index ? [] : [at(name, 'this column is there twice')]
    }),
    ...columns
      .filter(({ name, explains }) => !explains && !names.includes(name.toLowerCase()))
      .map(({ name }) => at(name, 'this column is missing')),
  ]
}

function sizeFaults(file: string, rest: string[][], most: number): CsvFault[] {
  const filled = rest.flatMap((record, index) => (isBlank(record) ? [] : [index + 2]))
  const first = filled[most] ?? (rest.length >= MOST_RECORDS ? MOST_RECORDS : undefined)
  return first === undefined ? [] : [{ file, row: first, column: '', message: `more than ${most} rows` }]
}

function longFaults(file: string, record: string[], row: number, width: number): CsvFault[] {
  const index = record.findIndex((cell, at) => at >= width && cell.trim() !== '')
  return index < 0 ? [] : [{ file, row, column: letterOf(index), message: 'a cell beyond the last column' }]
}

function isBlank(record: string[]): boolean {
  return record.every(cell => cell.trim() === '')
}

/** A column without a name, as spreadsheets call it: A to Z, then AA. */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26))
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last
}
