import type { RateTable } from '../../estimate/table/rate-table.ts'
import { bedFigures } from './bed-figures.ts'
import { priceFigures } from './price-figures.ts'
import { rangeFigures } from './range-figures.ts'
import { asOneText, isAsStarted, type StartFigure } from './start-figure.ts'
import { workFigures } from './work-figures.ts'

/** Start figures that belong together. */
export interface FigureGroup {
  title: string
  figures: StartFigure[]
}

/** Every figure that a rate table starts with, in groups. What the owner added himself has none. */
function startFigures(table: RateTable): Record<'prices' | 'ranges' | 'beds' | 'work', FigureGroup> {
  return {
    prices: { title: 'Prices and crew hours', figures: priceFigures(table) },
    ranges: { title: 'Measuring and ranges', figures: rangeFigures(table) },
    beds: { title: 'Beds and finishes', figures: bedFigures(table) },
    work: { title: 'Work', figures: workFigures(table) },
  }
}

/**
 * The figures that still are what the table started with, where that is invented or common practice without a source:
 * nobody has confirmed them by changing them. Groups without any are left out.
 */
export function unconfirmedGroups(table: RateTable): FigureGroup[] {
  return Object.values(startFigures(table))
    .map(({ title, figures }) => ({
      title,
      figures: figures.filter(figure => !figure.source.named && isAsStarted(figure)),
    }))
    .filter(({ figures }) => figures.length > 0)
}

/** Every figure of a table by its key, with its value as one text. */
export function startFigureValues(table: RateTable): Map<string, string> {
  const figures = Object.values(startFigures(table)).flatMap(group => group.figures)
  return new Map(figures.map(({ key, now }) => [key, asOneText(now)]))
}

/** A figure that stands behind the ranges; `source` says where it comes from. */
export interface Settled {
  label: string
  figure: string
  source: string
}

// No table holds them, and so nobody can change or confirm them.
const OF_THE_METHOD: Settled[] = [
  { label: 'A size told as “20-25”', figure: 'the middle; half the gap is two standard errors' },
  { label: 'A size told as “about 20”', figure: 'as by eye, however the rest is measured' },
  { label: 'A curvy outline, and a volume told', figure: '5 % of each bed’s own' },
].map(one => ({ ...one, source: 'Invented, part of the method' }))

/** What else the ranges rest on, besides the prices: each figure with its source, or as the business's own. */
export function settledFigures(table: RateTable): Settled[] {
  const { ranges, beds, work } = startFigures(table)
  const own = [ranges, beds, work]
    .flatMap(({ figures }) => figures)
    .map(figure => ({
      label: figure.label,
      figure: figure.words,
      source: isAsStarted(figure) ? figure.source.words : 'This business’s own setting',
    }))
  return [...own, ...OF_THE_METHOD]
}
