import { allSheets } from './all-sheets.ts'
import { readCsv } from './csv.ts'
import { Draft } from './draft.ts'
import type { Row, Sheet, SheetFault } from './sheet.ts'

/**
 * Puts a rate table together from its files, not checked yet. Faults of the files themselves (one missing, a column
 * too many, a quotation mark out of place) are told alone: the rest could not be read without them.
 */
export function readSheets(files: Record<string, string>): { draft: Draft; faults: SheetFault[] } {
  const draft = new Draft()
  const read = allSheets.map(sheet => ({ sheet, ...readFile(files, sheet) }))
  const faults = read.flatMap(one => one.faults)
  if (faults.length > 0) return { draft, faults }
  for (const { sheet, rows } of read) sheet.read(rows, draft)
  return { draft, faults: draft.faults }
}

function readFile(files: Record<string, string>, sheet: Sheet): { rows: Row[]; faults: SheetFault[] } {
  const { file } = sheet
  const text = Object.hasOwn(files, file) ? files[file] : undefined
  if (text !== undefined) return readCsv(sheet, text)
  return { rows: [], faults: [{ file, row: 0, column: '', message: 'this file is missing' }] }
}
