import type { RateTable } from '../../estimate/table/rate-table.ts'
import { allFiles } from './all-files.ts'
import { sameCell, unguarded } from './cells.ts'
import type { CsvFile } from './csv-file.ts'
import type { Line } from './rows.ts'

/** One thing that is different, in words: where it is, and what stands there in each table; '' for nothing. */
export interface Difference {
  where: string
  before: string
  after: string
}

const LONGEST = 240

/** What is different between two rate tables of the same units and currency; figures of one value are the same. */
export function differenceOf(before: RateTable, after: RateTable, csvFiles = allFiles): Difference[] {
  return csvFiles.flatMap(csvFile => {
    const [old, now] = [keyed(csvFile.linesOf(before)), keyed(csvFile.linesOf(after))]
    const gone = [...old].filter(([key]) => !now.has(key))
    return [
      ...[...now].flatMap(([key, line]) => {
        const known = old.get(key)
        return known
          ? cellDifferences(csvFile, known, line)
          : [{ where: line.words, before: '', after: summary(csvFile, line) }]
      }),
      ...gone.map(([, line]) => ({ where: line.words, before: summary(csvFile, line), after: '' })),
      ...(csvFile.ordered ? orderDifference(csvFile, old, now) : []),
    ]
  })
}

// Of lines with one key, the first of one table is held against the first of the other, and so on.
function keyed(lines: Line[]): Map<string, Line> {
  const counts = new Map<string, number>()
  return new Map(
    lines.map(line => {
      const count = (counts.get(line.key) ?? 0) + 1
      counts.set(line.key, count)
      return [`${line.key}\n${count}`, line]
    }),
  )
}

function cellDifferences(csvFile: CsvFile, old: Line, now: Line): Difference[] {
  return csvFile.columns
    .filter(({ name, explains }) => !explains && !sameCell(old.cells[name] ?? '', now.cells[name] ?? ''))
    .map(({ name }) => ({
      where: name === 'value' ? now.words : `${now.words}, ${name}`,
      before: unguarded(old.cells[name] ?? ''),
      after: unguarded(now.cells[name] ?? ''),
    }))
}

function summary(csvFile: CsvFile, { cells }: Line): string {
  return csvFile.columns
    .filter(({ name, explains }) => !explains && (cells[name] ?? '') !== '')
    .map(({ name }) => `${name} ${unguarded(cells[name]!)}`)
    .join('; ')
}

function orderDifference(csvFile: CsvFile, old: Map<string, Line>, now: Map<string, Line>): Difference[] {
  const [before, after] = [
    [...old.keys()].filter(key => now.has(key)),
    [...now.keys()].filter(key => old.has(key)),
  ]
  if (before.every((key, index) => key === after[index])) return []
  const inWords = (keys: string[]) => {
    const all = keys.map(key => now.get(key)!.words).join('; ')
    return all.length > LONGEST ? `${all.slice(0, LONGEST)}…` : all
  }
  return [
    {
      where: `order of ${csvFile.file.replace('.csv', '').replaceAll('-', ' ')}`,
      before: inWords(before),
      after: inWords(after),
    },
  ]
}
