import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { FORMAT, storedTable } from '../../../src/estimate/table/complete-table.ts'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { tableFromFiles } from '../../../src/rates/csv/table-from-files.ts'
import { readTable } from '../../../src/rates/csv-form.ts'
import { fullTable } from './tables.ts'

// Files as they were written, and a table as it was stored, before tables said `labor`.
const kept: { files: Record<string, string>; table: Record<string, unknown> } = JSON.parse(
  readFileSync(join(import.meta.dirname, 'kept', 'files-2.json'), 'utf8'),
)

test('files that were taken out before are read as they were, and no file says labour', () => {
  expect(tableFromFiles(kept.files)).toEqual({ ok: true, table: fullTable() })
  const now = filesOf(fullTable())
  expect(Object.keys(kept.files)).toEqual(Object.keys(now))
  expect(Object.values(now).join('')).not.toContain('labour')
})

test('a page that was opened before can still be sent: its table is read by its format', () => {
  const photos = new Set(fullTable().finishes.flatMap(({ photo }) => photo ?? []))
  expect(kept.table).toHaveProperty('labour')
  expect(readTable(JSON.stringify(kept.table), photos)).toEqual(fullTable())
  expect(readTable(JSON.stringify(storedTable(fullTable())), photos)).toEqual(fullTable())
  for (const none of ['null', '[]', '5', '{}', '{"format":1}', '{"format":"x"}', `{"format":${FORMAT + 1}}`])
    expect(readTable(none, photos)).toBeNull()
})
