import type { Cell } from './cells.ts'

/** What is wrong, and where a spreadsheet shows it: the row of the column names is 1. */
export interface CsvFault {
  file: string
  row: number
  column: string
  message: string
}

/** unit: such as '{money} per {bulk}', filled in by `unitOf`. `explains`: written for people, and not read. */
export interface Column {
  name: string
  meaning: string
  unit?: string
  explains?: boolean
  /** A name that it had before, which is still read. */
  was?: string
}

/** A column that holds one figure or text of what its row is about; path from there, 'depth.least'. */
export interface Field extends Column {
  path: string
  cell: Cell
}

/** A row as it is written: key tells it from the file's others, words name it to people. */
export interface Line {
  key: string
  words: string
  cells: Record<string, string>
}

/** A row as it was read, with its number in the spreadsheet; every column of the file has its cell, '' if need be. */
export interface RowRead {
  file: string
  number: number
  cells: Record<string, string>
  decimalComma: boolean
}
