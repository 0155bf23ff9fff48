import type { RateTable } from '../../estimate/table/rate-table.ts'
import { unitOf, withSigns } from '../../estimate/units/unit-of.ts'
import { figureInWords, moneyInWords } from '../../language/money-in-words.ts'
import { Decimal } from '../../lib/decimal.ts'
import { perInWords } from '../start/rate-words.ts'
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
const MOST_DECIMALS = 9

/** What is different between two rate tables of the same units and currency; figures of one value are the same. */
export function differenceOf(before: RateTable, after: RateTable, csvFiles = allFiles): Difference[] {
  return csvFiles.flatMap(csvFile => {
    const [old, now] = [keyed(csvFile.linesOf(before)), keyed(csvFile.linesOf(after))]
    const gone = [...old].filter(([key]) => !now.has(key))
    return [
      ...[...now].flatMap(([key, line]) => {
        const known = old.get(key)
        return known
          ? cellDifferences(csvFile, known, line, after)
          : [{ where: line.words, before: '', after: summary(csvFile, line, after) }]
      }),
      ...gone.map(([, line]) => ({ where: line.words, before: summary(csvFile, line, before), after: '' })),
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

function cellDifferences(csvFile: CsvFile, old: Line, now: Line, table: RateTable): Difference[] {
  return csvFile.columns
    .filter(({ name, explains }) => !explains && !sameCell(old.cells[name] ?? '', now.cells[name] ?? ''))
    .map(column => {
      const [before, after] = [inWords(column, old, table), inWords(column, now, table)]
      return {
        where: column.name === 'value' ? now.words : `${now.words}, ${column.name}`,
        before,
        after: before !== '' && before === after ? `another ${after.replace(/^an? /, '')}` : after,
      }
    })
}

/** A cell as people read it: money, shares and measures with their units, and a photo without its name. */
function inWords({ name, unit }: Column, { cells }: Line, table: RateTable): string {
  const cell = unguarded(cells[name] ?? '')
  const of = name === 'value' || unit?.includes('{sold}') ? cells.unit : unit
  if (name === 'photo' && cell !== '') return 'a photo'
  if (!of || !/^\d+(\.\d+)?$/.test(cell)) return cell
  if (of === 'share') return `${new Decimal(cell).times(100).toFixed()}%`
  if (of === 'times') return `× ${cell}`
  return withUnit(cell, of.replace('for each', perOf(cells.per, table)), table)
}

// A column that several kinds of entry share may have several units.
function withUnit(figure: string, template: string, table: RateTable): string {
  const { currency } = table
  const unit = /[,;]/.test(template) ? '' : withSigns(unitOf(template, table))
  const isMoney = unit === currency || unit.startsWith(`${currency} `)
  if (!isMoney) return `${figureInWords(figure, 'en', MOST_DECIMALS)} ${unit}`.trim()
  return `${moneyInWords(figure, currency, 'en', { whole: true, exact: true })}${unit.slice(currency.length)}`
}

function perOf(per: string | undefined, { units }: RateTable): string {
  return per ? perInWords(per as RateTable['extras'][number]['per'], units) : ''
}

function summary(csvFile: CsvFile, line: Line, table: RateTable): string {
  const { cells } = line
  return csvFile.columns
    .filter(({ name, explains }) => !explains && (cells[name] ?? '') !== '')
    .map(column => `${column.name} ${inWords(column, line, table)}`)
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
