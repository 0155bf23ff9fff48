import type { Span } from '../../estimate/table/rate-table.ts'
import { Decimal } from '../../lib/decimal.ts'

/** Where a figure of the starter table comes from; only a named source can be looked up. */
export interface Source {
  words: string
  named: boolean
}

export const INVENTED: Source = { words: 'Invented, to start with', named: false }
export const COMMON: Source = { words: 'Common practice, no source', named: false }
export const named = (words: string): Source => ({ words, named: true })

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
}

/** Figures as one text: alike exactly where they are, however they were written ('0.80', '0.8'). */
export function asOneText(figures: string[]): string {
  return figures.map(figure => new Decimal(figure).toFixed()).join(' ')
}

/** Whether it still is what it started as. */
export function isAsStarted({ now, start }: StartFigure): boolean {
  return asOneText(now) === asOneText(start)
}

/** A share as "5 %". */
export function percentInWords(share: string): string {
  return `${new Decimal(share).times(100).toFixed()} %`
}

/** A lower and an upper figure, each put into words: '$85 to $105'; one where they are alike. */
export function spanInWords(
  { lower, upper }: Span,
  inWords: (figure: string) => string = figure => figure,
): string {
  return new Decimal(lower).eq(upper) ? inWords(lower) : `${inWords(lower)} to ${inWords(upper)}`
}
