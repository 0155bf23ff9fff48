import type { z } from 'zod'
import { rateFigures } from '../../src/estimate/table/rate-table.ts'
import { partAt, type Row, rowsOf, togetherOf } from '../../src/estimate/table/rows.ts'
import { allFiles } from '../../src/rates/csv/all-files.ts'
import { meaningOf } from '../../src/rates/csv/fields-of.ts'

/** Every figure of the catalogue as the table of src/estimate/table/README.md; packs of all kinds in one. */
export function printFigures(figures: z.ZodObject = rateFigures): string {
  const byPath = Map.groupBy(rowsOf(figures), ({ path }) => path)
  const sources = new Map(sourcesIn(figures))
  const distinct = (texts: string[]) => [...new Set(texts)].filter(Boolean).join('; ')
  const rows = [...byPath].map(([path, rows]) => [
    `\`${path}\``,
    distinct(rows.map(meaningOf)),
    distinct(rows.map(({ unit = '' }) => unit)),
    startInWords(rows[0]!),
    sources.get(path) ?? '',
    rows[0]!.secret ? 'the owner alone' : '',
  ])
  return table(['figure', 'what it is', 'unit', 'starts as, us/metric', 'whose that is', 'is told to'], rows)
}

/** Every file with its columns as the table of src/rates/csv/README.md. */
export function printFiles(): string {
  const columnsOf = ({ columns }: (typeof allFiles)[number]) =>
    columns.map(({ name }) => `\`${name}\``).join(', ')
  return table(
    ['file', 'holds', 'columns'],
    allFiles.map(csvFile => [`\`${csvFile.file}\``, csvFile.about, columnsOf(csvFile)]),
  )
}

function table(header: string[], rows: string[][]): string {
  const line = (cells: string[]) => `| ${cells.join(' | ')} |`
  return [line(header), `|${header.map(() => '---|').join('')}`, ...rows.map(line)].join('\n')
}

/** Where start values come from, by path: those that are looked at as one have one source. */
function sourcesIn(figures: z.ZodObject): [path: string, source: string][] {
  return ['', 'finishes.*', 'extras.*'].flatMap(whole =>
    togetherOf(whole ? partAt(figures, whole) : figures).flatMap(({ path, rows, source }) =>
      rows.map((row): [string, string] => [[whole, path, row.path].filter(Boolean).join('.'), source!.words]),
    ),
  )
}

function startInWords({ start, before }: Row): string {
  const value = start ?? before ?? ''
  if (typeof value !== 'object') return String(value)
  return 'us' in value ? Object.values(value).join(' / ') : ''
}
