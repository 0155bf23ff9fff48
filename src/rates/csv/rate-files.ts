import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { ownRows, partAt } from '../../estimate/table/rows.ts'
import { rateUnit } from '../../estimate/table/sold.ts'
import { unitOf } from '../../estimate/units/unit-of.ts'
import { Decimal } from '../../lib/decimal.ts'
import { figure, sameCell, word } from './cells.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import { fieldOf } from './fields-of.ts'
import type { Field, RowRead } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

const FILE = 'rates.csv'
const FROM = 'from size'

export function sizesFile(figures: z.ZodObject): CsvFile {
  const sizes = ownRows(figures).filter(({ file }) => file === 'job-sizes.csv')
  return {
    file: 'job-sizes.csv',
    about: 'Job sizes where different rates start, from small to large. Jobs under the first need no row.',
    columns: [...sizes.map(fieldOf), { name: 'unit', meaning: 'not read', explains: true }],
    mostRows: 20,
    ordered: true,
    linesOf: table =>
      table.tiers.map(from => ({
        key: new Decimal(from).toString(),
        words: `jobs from ${from} ${bulkSign(table)}`,
        cells: { [FROM]: from, unit: unitOf('{bulk}', table) },
      })),
    read: (rows, parts) => {
      parts.put('tiers', [])
      rows.forEach((row, index) => {
        parts.put(`tiers.${index}`, figure.read(row.cells[FROM]!, row.decimalComma), placeOf(row, FROM))
      })
    },
  }
}

export function ratesFile(figures: z.ZodObject): CsvFile {
  const span = ownRows(partAt(figures, 'finishes.*.rates.*')).map(fieldOf)
  return {
    file: FILE,
    about: 'What you charge: for each finish, one row from size 0, and one from each size in job-sizes.csv.',
    columns: [
      { name: 'finish', meaning: 'its slug in finishes.csv' },
      { name: FROM, unit: '{bulk}', meaning: '0, or one of job-sizes.csv' },
      ...span,
      { name: 'unit', meaning: 'not read', explains: true },
    ],
    ordered: false,
    linesOf: table =>
      table.finishes.flatMap(finish =>
        finish.rates.map((rate, column) => {
          const from = column === 0 ? '0' : table.tiers[column - 1]!
          const unit = `${table.currency} per ${rateUnit(finish, table)}`
          return {
            key: `${finish.slug} ${new Decimal(from)}`,
            words: `${finish.name.en}, ${rateInWords(from, table)}`,
            cells: { finish: word.write(finish.slug), [FROM]: from, ...cellsOf(span, rate), unit },
          }
        }),
      ),
    read: (rows, parts) => {
      const filled = new Set<string>()
      for (const row of rows) readRate(row, parts, span, filled)
      requireEveryRate(parts, filled)
    },
  }
}

function bulkSign({ units }: RateTable): string {
  return units === 'us' ? 'yd³' : 'm³'
}

function rateInWords(from: string, table: RateTable): string {
  return table.tiers.length === 0 ? 'rate' : `rate from ${from} ${bulkSign(table)}`
}

function readRate(row: RowRead, parts: TableParts, span: Field[], filled: Set<string>): void {
  const slug = word.read(row.cells.finish!, false) as string
  const from = figure.read(row.cells[FROM]!, row.decimalComma) as string
  const index = slugsOf(parts, 'finishes').indexOf(slug)
  const column = sizesOf(parts).findIndex(size => sameCell(size, from))
  const path = `finishes.${index}.rates.${column}`
  if (index < 0) parts.fault(row, 'finish', `“${slug}”: not in finishes.csv`)
  else if (column < 0) parts.fault(row, FROM, `“${from}”: neither 0 nor in job-sizes.csv`)
  else if (filled.has(path)) parts.fault(row, FROM, `“${from}”: already given above for this finish`)
  else {
    filled.add(path)
    parts.putFields(path, span, row)
  }
}

function requireEveryRate(parts: TableParts, filled: Set<string>): void {
  slugsOf(parts, 'finishes').forEach((slug, index) => {
    sizesOf(parts).forEach((from, column) => {
      const path = `finishes.${index}.rates.${column}`
      if (filled.has(path)) return
      const message = `no row for “${slug}” from size ${from}`
      parts.faults.push({ file: FILE, row: 1, column: FROM, message })
      // Something in its place, so that nothing more is said of it.
      parts.put(path, { lower: '0', upper: '0' })
    })
  })
}

function sizesOf(parts: TableParts): string[] {
  return ['0', ...(parts.list('tiers') as string[])]
}

/** The slugs of a list as read, in its order. */
export function slugsOf(parts: TableParts, list: string): unknown[] {
  return parts.list(list).map(entry => (entry as { slug: unknown }).slug)
}
