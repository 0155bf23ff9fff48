import type { RateTable } from '../../estimate/table/rate-table.ts'
import type { Cell } from './cells.ts'
import type { Draft } from './draft.ts'

/** What is wrong, and where a spreadsheet shows it: the row of the column names is 1. */
export interface SheetFault {
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
}

/** A column that holds one figure or text of what its row is about; path from there, 'depth.least'. */
export interface Field extends Column {
  path: string
  cell: Cell
}

/** A row as it is written: key tells it from the sheet's others, words name it to people. */
export interface Line {
  key: string
  words: string
  cells: Record<string, string>
}

/** A row as it was read, with its number in the spreadsheet; every column of the sheet has its cell, '' if need be. */
export interface Row {
  file: string
  number: number
  cells: Record<string, string>
  decimalComma: boolean
}

/** One file of the rate table. Sheets are read in their order: a later one adds to what earlier ones put there. */
export interface Sheet {
  file: string
  about: string
  columns: Column[]
  /** 5,000 where it doesn't say; less where each row makes more to do in other sheets. */
  mostRows?: number
  /** Whether the order of its rows says something. */
  ordered: boolean
  linesOf(table: RateTable): Line[]
  read(rows: Row[], draft: Draft): void
}

/** What is at a dotted path, 'depth.least'. */
export function valueAt(from: unknown, path: string): unknown {
  return path.split('.').reduce<unknown>((value, step) => (value as Record<string, unknown>)?.[step], from)
}

/** The cells of what a row is about. */
export function cellsOf(fields: Field[], from: unknown): Record<string, string> {
  return Object.fromEntries(fields.map(({ name, path, cell }) => [name, cell.write(valueAt(from, path))]))
}
