import { CsvError, parse } from 'csv-parse/sync'
import { isStorable } from '../http/storable-text.ts'
import { guarded, unguarded } from '../rates/csv/cells.ts'

/** Beyond this a file is refused. */
export const MOST_ROWS = 2000
const MOST_COLUMNS = 100
const LONGEST_ROW = 20_000

/** What is wrong with a file as a whole, or in one cell: the row of the column names is 1, and 0 is the file. */
export interface RowFault {
  row: number
  column: string
  message: string
}

/** A file as a table; `rows` have their number in the spreadsheet, empty ones are left out. */
export interface Records {
  header: string[]
  rows: { number: number; cells: string[] }[]
}

/** The text of a file, whichever way it is encoded: by its mark, else UTF-8 where it can be that, else Windows-1252. */
export function textOf(bytes: Uint8Array): string | null {
  const decoded = decode(bytes)
  return decoded.includes('\0') || !isStorable([decoded]) ? null : decoded.replace(/^\uFEFF/, '')
}

function decode(bytes: Uint8Array): string {
  const [first, second] = bytes
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

/** Reads a CSV text whose cells are parted by commas, semicolons or tabs; its first row has the names of the columns. */
export function readRecords(text: string): ({ ok: true } & Records) | { ok: false; fault: RowFault } {
  const all = parseAll(text, separatorOf(text))
  if (!Array.isArray(all)) return { ok: false, fault: all }
  const numbered = all.map((cells, index) => ({ number: index + 1, cells: cells.map(ownText) }))
  const [first, ...rest] = numbered.filter(({ cells }) => cells.some(cell => cell !== ''))
  if (!first || rest.length === 0)
    return wrong(0, 'There are no rows in it. The first row has the names of the columns.')
  if (rest.length > MOST_ROWS)
    return wrong(
      rest[MOST_ROWS]!.number,
      `That’s more than ${MOST_ROWS.toLocaleString('en-US')} rows. Split it into smaller files.`,
    )
  if (first.cells.length > MOST_COLUMNS)
    return wrong(first.number, `That’s more than ${MOST_COLUMNS} columns.`)
  return { ok: true, header: first.cells, rows: rest }
}

function wrong(row: number, message: string) {
  return { ok: false, fault: { row, column: '', message } } as const
}

function parseAll(text: string, delimiter: string): string[][] | RowFault {
  try {
    return parse(text, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      max_record_size: LONGEST_ROW,
      to: MOST_ROWS * 4,
    })
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const row = Number(error.records ?? 0) + 1
    const message =
      error.code === 'CSV_MAX_RECORD_SIZE'
        ? 'This row is too long. Maybe a quotation mark " is never closed.'
        : 'A quotation mark " is out of place. Write one inside a cell twice.'
    return { row, column: '', message }
  }
}

/** The one that parts the first row into most cells, outside quotation marks. */
function separatorOf(text: string): string {
  const [line = ''] = text
    .replace(/"[^"]*"/g, '')
    .trimStart()
    .split(/[\r\n]/, 1)
  const count = (separator: string) => line.split(separator).length
  return [',', ';', '\t'].reduce((best, one) => (count(one) > count(best) ? one : best))
}

// An apostrophe that we, or somebody else, put before what a spreadsheet would alter.
function ownText(cell: string): string {
  const bare = unguarded(cell)
  return (guarded(bare) === cell ? bare : cell).trim()
}
