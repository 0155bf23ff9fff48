import type { RateTable } from '../../estimate/table/rate-table.ts'
import type { AskedAbout, Source } from '../../estimate/table/row.ts'
import { inUnits, type TogetherRow, valueAt } from '../../estimate/table/rows.ts'
import { Decimal } from '../../lib/decimal.ts'
import { valueInWords, withValues } from './figure-words.ts'

/** A figure that every rate table starts with, as one table has it now. */
export interface StartFigure {
  /** What it is known by for good: 'measuring.tape', 'finish.stone.weight'. */
  key: string
  label: string
  /** What it is now, with its unit. */
  words: string
  /** What it is now and what it started as, in plain decimals; several where they go together. */
  now: string[]
  start: string[]
  source: Source
  /** The section of the draft in which it is changed. */
  section: string
  /** Whether it is among the handful that the owner gives at the set-up. */
  handful: boolean
}

/** What figures are of: the table, or a finish or an extra of it, with what it was like when it began. */
export interface Whole {
  now: unknown
  start: unknown
  /** What keys and labels begin with, and the section where no row says so: of a finish or an extra alone. */
  named?: { key: string; label: string; sources: Record<string, Source> }
}

/** A figure, or some that go together, as a whole has them; none where it says nothing of this one. */
export function startFigure(one: TogetherRow, whole: Whole, table: RateTable): StartFigure[] {
  const start = valueAt(whole.start, one.path)
  const now = alikeIn(valueAt(whole.now, one.path), start, one)
  const { named } = whole
  if (one.idle?.(whole.now) || (named && isNeutral(one, start, table))) return []
  const keyNow = withValues(one.key ?? one.path, one, now, table)
  const began = keyNow === withValues(one.key ?? one.path, one, start, table)
  const label = withValues(one.label, one, now, table)
  return [
    {
      key: named ? `${named.key}.${keyNow}` : keyNow,
      label: named ? `${named.label}, ${label.charAt(0).toLowerCase()}${label.slice(1)}` : label,
      words: valueInWords(one, now, whole.now, table),
      now: figuresOf(one, now),
      start: began ? figuresOf(one, start) : [],
      source: named?.sources[one.path] ?? (one as Required<AskedAbout>).source,
      section: named?.key ?? one.rows[0]!.section!,
      handful: one.handful ?? false,
    },
  ]
}

// Of a list, such as a price for each size of job: the first that still is what it began as, else the first of all.
function alikeIn(now: unknown, start: unknown, one: TogetherRow): unknown {
  if (!Array.isArray(now)) return now
  return now.find(each => asOneText(figuresOf(one, each)) === asOneText(figuresOf(one, start))) ?? now[0]
}

/** The figures themselves of what is looked at as one. */
function figuresOf({ rows }: TogetherRow, value: unknown): string[] {
  const entry = Array.isArray(value) ? value[0] : value
  return rows.flatMap(({ path }) => {
    const figure = valueAt(entry, path.replace(/^\*\./, ''))
    return typeof figure === 'string' ? [figure] : []
  })
}

// Of an extra that began as one without the figure it changes nothing: there is nothing to look at.
function isNeutral(one: TogetherRow, start: unknown, { units }: RateTable): boolean {
  const figures = figuresOf(one, start)
  if (figures.length === 0) return true
  const before = one.rows.map(row => inUnits(row.before, units))
  return figures.every((figure, index) => typeof before[index] === 'string' && figure === before[index])
}

/** Figures as one text: alike exactly where they are, however they were written ('0.80', '0.8'). */
export function asOneText(figures: string[]): string {
  return figures.map(figure => new Decimal(figure).toFixed()).join(' ')
}

/** Whether it still is what it started as. */
export function isAsStarted({ now, start }: StartFigure): boolean {
  return asOneText(now) === asOneText(start)
}
