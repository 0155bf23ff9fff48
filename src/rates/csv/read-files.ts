import { allFiles } from './all-files.ts'
import { readCsv } from './csv.ts'
import type { CsvFile } from './csv-file.ts'
import type { CsvFault, RowRead } from './rows.ts'
import { TableParts } from './table-parts.ts'

/**
 * Puts a rate table together from its files, not checked yet. Faults of the files themselves (one missing, a column
 * too many, a quotation mark out of place) are told alone: the rest could not be read without them.
 */
export function readFiles(
  files: Record<string, string>,
  csvFiles = allFiles,
): { parts: TableParts; faults: CsvFault[] } {
  const parts = new TableParts()
  const read = csvFiles.map(csvFile => ({ csvFile, ...readFile(files, csvFile) }))
  const faults = read.flatMap(one => one.faults)
  if (faults.length > 0) return { parts, faults }
  for (const { csvFile, rows } of read) csvFile.read(rows, parts)
  return { parts, faults: parts.faults }
}

function readFile(files: Record<string, string>, csvFile: CsvFile): { rows: RowRead[]; faults: CsvFault[] } {
  const { file } = csvFile
  const text = Object.hasOwn(files, file) ? files[file] : undefined
  if (text !== undefined) return readCsv(csvFile, text)
  return { rows: [], faults: [{ file, row: 0, column: '', message: 'this file is missing' }] }
}
