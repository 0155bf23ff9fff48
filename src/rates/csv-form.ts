import { completeTable } from '../estimate/table/complete-table.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { rateTableSchema } from '../estimate/table/rate-table-schema.ts'
import { isStorable } from '../http/storable-text.ts'
import type { CsvFault } from './csv/rows.ts'
import { tableFromFiles } from './csv/table-from-files.ts'
import { filesFromZip } from './csv/zip.ts'

/** How much the form that takes a table in may hold, in bytes. */
export const TAKE_IN_LIMIT = 1_000_000
// Beside the table there is only its version.
const MOST_ESCAPED = TAKE_IN_LIMIT - 1000

export type ReadZip = { ok: true; table: RateTable } | { ok: false; faults: CsvFault[] }

/** Reads a rate table from a zip of files, for a business of these units and this currency that keeps these photos. */
export function readZip(
  bytes: Uint8Array,
  business: Pick<RateTable, 'units' | 'currency'>,
  photos: ReadonlySet<string>,
): ReadZip {
  const unzipped = filesFromZip(bytes)
  if (!unzipped.ok) return unzipped
  const read = tableFromFiles(unzipped.files, business, photos)
  if (!read.ok || escapedLength(JSON.stringify(read.table)) <= MOST_ESCAPED) return read
  return {
    ok: false,
    faults: [{ file: '', row: 0, column: '', message: 'more rows in all than we can read' }],
  }
}

function escapedLength(json: string): number {
  return new URLSearchParams({ table: json }).toString().length
}

/** The table of the form that takes it in, checked once more; null when it isn't one, or names a photo that isn't kept. */
export function readTable(typed: string, photos: ReadonlySet<string>): RateTable | null {
  try {
    const checked = rateTableSchema.safeParse(completeTable(JSON.parse(typed)))
    const isSound = checked.success && isStorable([checked.data])
    return isSound && checked.data.finishes.every(({ photo }) => photo === null || photos.has(photo))
      ? checked.data
      : null
  } catch {
    return null
  }
}
