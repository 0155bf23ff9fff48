import type { RateTable } from '../../estimate/table/rate-table.ts'
import { allSheets } from './all-sheets.ts'
import { sameCell, unguarded } from './cells.ts'
import type { Line, Sheet } from './sheet.ts'

/** One thing that is different, in words: where it is, and what stands there in each table; '' for nothing. */
export interface Difference {
  where: string
  before: string
  after: string
}

const LONGEST = 240

/** What is different between two rate tables of the same units and currency; figures of one value are the same. */
export function differenceOf(before: RateTable, after: RateTable): Difference[] {
  return allSheets.flatMap(sheet => {
    const [old, now] = [keyed(sheet.linesOf(before)), keyed(sheet.linesOf(after))]
    const gone = [...old].filter(([key]) => !now.has(key))
    return [
      ...[...now].flatMap(([key, line]) => {
        const known = old.get(key)
        return known
          ? cellDifferences(sheet, known, line)
          : [{ where: line.words, before: '', after: summary(sheet, line) }]
      }),
      ...gone.map(([, line]) => ({ where: line.words, before: summary(sheet, line), after: '' })),
      ...(sheet.ordered ? orderDifference(sheet, old, now) : []),
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

function cellDifferences(sheet: Sheet, old: Line, now: Line): Difference[] {
  return sheet.columns
    .filter(({ name, explains }) => !explains && !sameCell(old.cells[name] ?? '', now.cells[name] ?? ''))
    .map(({ name }) => ({
      where: name === 'value' ? now.words : `${now.words}, ${name}`,
      before: unguarded(old.cells[name] ?? ''),
      after: unguarded(now.cells[name] ?? ''),
    }))
}

function summary(sheet: Sheet, { cells }: Line): string {
  return sheet.columns
    .filter(({ name, explains }) => !explains && (cells[name] ?? '') !== '')
    .map(({ name }) => `${name} ${unguarded(cells[name]!)}`)
    .join('; ')
}

function orderDifference(sheet: Sheet, old: Map<string, Line>, now: Map<string, Line>): Difference[] {
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
      where: `order of ${sheet.file.replace('.csv', '').replaceAll('-', ' ')}`,
      before: inWords(before),
      after: inWords(after),
    },
  ]
}
