import type { RateTable } from '../../estimate/table/rate-table.ts'
import { valueAt } from '../../estimate/table/rows.ts'
import type { Column, Field, Line, RowRead } from './rows.ts'
import type { TableParts } from './table-parts.ts'

/** One file of the rate table. Files are read in their order: a later one adds to what earlier ones put there. */
export interface CsvFile {
  file: string
  about: string
  columns: Column[]
  /** 5,000 where it doesn't say; less where each row makes more to do in other files. */
  mostRows?: number
  /** Whether the order of its rows says something. */
  ordered: boolean
  linesOf(table: RateTable): Line[]
  read(rows: RowRead[], parts: TableParts): void
}

/** The cells of what a row is about. */
export function cellsOf(fields: Field[], from: unknown): Record<string, string> {
  return Object.fromEntries(fields.map(({ name, path, cell }) => [name, cell.write(valueAt(from, path))]))
}
