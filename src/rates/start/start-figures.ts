import type { z } from 'zod'
import { starterFinishes } from '../../estimate/starter/starter.ts'
import { siteExtras, starterExtras } from '../../estimate/starter/starter-extras.ts'
import { inventedPrices } from '../../estimate/starter/starter-prices.ts'
import { starterSources } from '../../estimate/starter/starter-sources.ts'
import { type RateTable, rateFigures } from '../../estimate/table/rate-table.ts'
import { partAt, togetherOf } from '../../estimate/table/rows.ts'
import { isRatedAsSold } from '../../estimate/table/sold.ts'
import { startOf } from '../../estimate/table/values.ts'
import { asOneText, isAsStarted, type StartFigure, startFigure } from './start-figure.ts'

/** Start figures that belong together. */
export interface FigureGroup {
  title: string
  figures: StartFigure[]
}

type Group = 'prices' | 'ranges' | 'beds' | 'work'

/** Where the figures of a section are listed; those of any other are work and the rest. */
const GROUP_OF_SECTION: Partial<Record<string, Group>> = {
  ranges: 'ranges',
  prices: 'beds',
  beds: 'beds',
  finish: 'beds',
}

/** Every figure that a rate table starts with, in groups. What the owner added himself has none. */
function startFigures(table: RateTable, figures: z.ZodObject) {
  const all = figuresOf(table, figures)
  const groupOf = ({ handful, section }: StartFigure) =>
    handful ? 'prices' : (GROUP_OF_SECTION[section.split('.')[0]!] ?? 'work')
  const inGroup = (group: Group) => all.filter(one => groupOf(one) === group)
  return {
    prices: { title: 'Prices and labor hours', figures: inGroup('prices') },
    ranges: { title: 'Measuring and ranges', figures: inGroup('ranges') },
    beds: { title: 'Beds and finishes', figures: inGroup('beds') },
    work: { title: 'Work and the rest', figures: inGroup('work') },
  }
}

function figuresOf(table: RateTable, figures: z.ZodObject): StartFigure[] {
  const { units } = table
  const prices = inventedPrices(units)
  const finishes = starterFinishes(units).map(one => {
    const now = table.finishes.find(({ slug }) => slug === one.slug)
    const byVolume = now && !isRatedAsSold(now) ? prices.ratesByVolume[one.slug] : undefined
    return { ...one, rates: [byVolume ?? prices.rates[one.slug]] }
  })
  const extras = [...starterExtras(units), ...siteExtras(units)].map(one => ({
    ...one,
    ...prices.extras[one.slug],
  }))
  const start = startOf(figures, units, true)
  const ofList = (list: 'finishes' | 'extras', one: string, known: { slug: string }[]) =>
    table[list].flatMap(now => {
      const start = known.find(({ slug }) => slug === now.slug)
      const named = { key: `${one}.${now.slug}`, label: now.name.en, sources: starterSources[now.slug] ?? {} }
      const kinds = togetherOf(partAt(figures, `${list}.*`))
      return start ? kinds.flatMap(kind => startFigure(kind, { now, start, named }, table)) : []
    })
  return [
    ...ofList('finishes', 'finish', finishes),
    ...ofList('extras', 'extra', extras),
    ...togetherOf(figures).flatMap(one => startFigure(one, { now: table, start }, table)),
  ]
}

/**
 * The figures that still are what the table started with, where that is invented or common practice without a source:
 * nobody has confirmed them by changing them. Groups without any are left out.
 */
export function unconfirmedGroups(table: RateTable, figures: z.ZodObject = rateFigures): FigureGroup[] {
  return Object.values(startFigures(table, figures))
    .map(({ title, figures }) => ({
      title,
      figures: figures.filter(figure => !figure.source.named && isAsStarted(figure)),
    }))
    .filter(({ figures }) => figures.length > 0)
}

/** Every figure of a table by its key, with its value as one text. */
export function startFigureValues(table: RateTable): Map<string, string> {
  return new Map(figuresOf(table, rateFigures).map(({ key, now }) => [key, asOneText(now)]))
}

/** A figure that stands behind the ranges; `source` says where it comes from. */
export interface Settled {
  label: string
  figure: string
  source: string
}

// No table holds them, and so nobody can change or confirm them.
const OF_THE_METHOD: Settled[] = [
  { label: 'A size given as “20-25”', figure: 'the middle, almost surely between the two' },
  { label: 'A size given as “about 20”', figure: 'as if judged by eye' },
  { label: 'A curvy outline, or a bed given by volume', figure: '5% off, each bed by itself' },
].map(one => ({ ...one, source: 'Invented, part of how ranges work' }))

/** What else the ranges rest on, besides the prices: each figure with its source, or as the business's own. */
export function settledFigures(table: RateTable): Settled[] {
  const { ranges, beds, work } = startFigures(table, rateFigures)
  const own = [ranges, beds, work]
    .flatMap(({ figures }) => figures)
    .map(figure => ({
      label: figure.label,
      figure: figure.words,
      source: isAsStarted(figure) ? figure.source.words : 'Your own figure',
    }))
  return [...own, ...OF_THE_METHOD]
}
