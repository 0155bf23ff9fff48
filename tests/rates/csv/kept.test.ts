import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { expect, test } from 'vitest'
import { FORMAT, storedTable } from '../../../src/estimate/table/complete-table.ts'
import { writeCsv } from '../../../src/rates/csv/csv.ts'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { tableFromFiles } from '../../../src/rates/csv/table-from-files.ts'
import { readTable } from '../../../src/rates/csv-form.ts'
import { fullTable } from './tables.ts'

// What figures are called that had other names then.
const NOW: Record<string, string> = {
  'crew hour': 'wage',
  'crew hours lower': 'labor hours lower',
  'crew hours upper': 'labor hours upper',
}

// Files as they were written, and a table as it was stored, before tables said `labor`.
const kept: {
  files: Record<string, string>
  table: { labour: object; cautions: { code: string }[]; format?: number } & Record<
    'finishes' | 'extras',
    { cautions: string[] }[]
  >
} = JSON.parse(readFileSync(join(import.meta.dirname, 'kept', 'files-2.json'), 'utf8'))

const rowsOf = (csv: string): Record<string, string>[] => parse(csv, { bom: true, columns: true })

/** Kept files with the rows and columns of figures that came later, as these have them; all else as it was written. */
function withLater(older: Record<string, string>, now: Record<string, string>): Record<string, string> {
  const both = Object.entries(older).map(([file, text]) => {
    const [was, is] = [rowsOf(text), rowsOf(now[file]!)]
    const renamed = Object.keys(was[0] ?? {}).map(name => NOW[name])
    const columns = [...new Set([...was, ...is].flatMap(row => Object.keys(row)))].filter(
      name => !renamed.includes(name),
    )
    const [key] = columns as [string]
    const added = is.filter(row => !was.some(one => [one[key], NOW[one[key]!]].includes(row[key])))
    const rows = [...was.map((row, index) => ({ ...is[index], ...row })), ...added]
    return [file, writeCsv([columns, ...rows.map(row => columns.map(name => row[name] ?? ''))])]
  })
  return { ...now, ...Object.fromEntries(both) }
}

test('files that were taken out before are read as they were, and no file says labour', () => {
  const now = filesOf(fullTable())
  const later = { shown: true, readBy: 'everyone', words: { en: null, es: null } }
  const known = kept.table.cautions.map(caution => ({ ...caution, ...later }))
  const wasKnown = (code: string) => kept.table.cautions.some(caution => caution.code === code)
  const cautions = [...known, ...fullTable().cautions.filter(({ code }) => !wasKnown(code))]
  const ticked = <Thing>(things: Thing[], list: 'finishes' | 'extras') =>
    things.map((thing, index) => ({ ...thing, cautions: kept.table[list][index]!.cautions }))
  const finishes = ticked(fullTable().finishes, 'finishes')
  const extras = ticked(fullTable().extras, 'extras')
  expect(tableFromFiles(withLater(kept.files, now))).toEqual({
    ok: true,
    table: { ...fullTable(), cautions, finishes, extras },
  })
  expect(Object.keys(now)).toEqual(expect.arrayContaining(Object.keys(kept.files)))
  expect(Object.values(now).join('')).not.toMatch(/labour|crew hour/)
})

test('a page that was opened before can still be sent: its table is read by its format', () => {
  const photos = new Set(fullTable().finishes.flatMap(({ photo }) => photo ?? []))
  const { labour, format: _, ...rest } = kept.table
  // Names that figures had then.
  const now = JSON.stringify({ ...rest, labor: labour })
    .replaceAll('"crewHours"', '"laborHours"')
    .replaceAll('"crewHour"', '"wage"')
    .replaceAll('PerCrewHour"', 'PerLaborHour"')
  expect(readTable(JSON.stringify(kept.table), photos)).toMatchObject(JSON.parse(now))
  expect(readTable(JSON.stringify(storedTable(fullTable())), photos)).toEqual(fullTable())
  for (const none of ['null', '[]', '5', '{}', '{"format":1}', '{"format":"x"}', `{"format":${FORMAT + 1}}`])
    expect(readTable(none, photos)).toBeNull()
})
