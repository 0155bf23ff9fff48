import type { RateTable } from '../../estimate/table/rate-table.ts'
import { Decimal } from '../../lib/decimal.ts'
import { allFiles } from './all-files.ts'
import { sameCell, unguarded } from './cells.ts'
import type { CsvFile } from './csv-file.ts'
import type { Column, Line } from './rows.ts'

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
    .map(column => {
      const [before, after] = [inWords(column, old), inWords(column, now)]
      return {
        where: column.name === 'value' ? now.words : `${now.words}, ${column.name}`,
        before,
        after: before !== '' && before === after ? `another ${after.replace(/^an? /, '')}` : after,
      }
    })
}

/** A cell as people read it: a share in percent, a figure with separators, and a photo without its name. */
function inWords({ name, unit }: Column, { cells }: Line): string {
  const cell = unguarded(cells[name] ?? '')
  const of = name === 'value' ? cells.unit : unit
  if (name === 'photo' && cell !== '') return 'a photo'
  if (!of || !/^\d+(\.\d+)?$/.test(cell)) return cell
  return of === 'share' ? `${new Decimal(cell).times(100).toFixed()} %` : withSeparators(cell)
}

// The decimals stay as they were typed.
function withSeparators(figure: string): string {
  return figure.replace(/^\d+/, whole => whole.replace(/\B(?=(\d{3})+$)/g, ','))
}

function summary(csvFile: CsvFile, line: Line): string {
  const { cells } = line
  return csvFile.columns
    .filter(({ name, explains }) => !explains && (cells[name] ?? '') !== '')
    .map(column => `${column.name} ${inWords(column, line)}`)
    .join('; ')
}

function orderDifference(csvFile: CsvFile, old: Map<string, Line>, now: Map<string, Line>): Difference[] {
  const [before, after] = [
    [...old.keys()].filter(key => now.has(key)),
    [...now.keys()].filter(key => old.has(key)),
  ]
  if (before.every((key, index) => key === after[index])) return []
  const namesOf = (keys: string[]) => {
    const all = keys.map(key => now.get(key)!.words).join('; ')
    return all.length > LONGEST ? `${all.slice(0, LONGEST)}…` : all
  }
  return [
    {
      where: `order of ${csvFile.file.replace('.csv', '').replaceAll('-', ' ')}`,
      before: namesOf(before),
      after: namesOf(after),
    },
  ]
}
