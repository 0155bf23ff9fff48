import { expect } from 'vitest'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { tableFromFiles } from '../../../src/rates/csv/table-from-files.ts'
import { fullTable } from './tables.ts'

export type Edit = [from: string | RegExp, to: string]

/** The files of a full table with something written over in one of them; fails when it isn't there. */
export function edited(file: string, ...edits: Edit[]): Record<string, string> {
  const files = filesOf(fullTable())
  for (const [from, to] of edits) {
    const text = files[file]!.replace(from, to)
    expect(text).not.toBe(files[file])
    files[file] = text
  }
  return files
}

/** The table of files that are right. */
export function tableOf(files: Record<string, string>): RateTable {
  const read = tableFromFiles(files, fullTable())
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.table
}

/** Every fault as "file row column: message". */
export function faultsOf(files: Record<string, string>): string[] {
  const read = tableFromFiles(files, fullTable())
  return read.ok ? [] : read.faults.map(one => `${one.file} ${one.row} ${one.column}: ${one.message}`)
}
