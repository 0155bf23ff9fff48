import { photoPath, shareFinish } from '../drawing/finish-tile.ts'
import { shapeIcon } from '../drawing/shape-icons.ts'
import { drawSymbols, shareTile } from '../drawing/tile.ts'
import { usualLayers } from '../estimate/reading/read-layers.ts'
import { offeredShapes, shapeOf } from '../estimate/shapes/all-shapes.ts'
import type { LyingName, Measuring, Planted, RateTable } from '../estimate/table/rate-table.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { BedTyped } from './bed-typed.ts'
import { depthInWords, layersListed } from './layers-in-words.ts'
import type { OpenTable } from './open-table.ts'

/** What can be picked, and how it is called. */
export interface Option {
  value: string
  label: string
}

/** One with a drawing of it. */
export interface Choice extends Option {
  drawing: string
}

/** One of a finish. */
export interface FinishChoice extends Choice {
  /** Where its photo is served, to be seen large; null where it has none. */
  photo: string | null
}

// In the order in which they are offered.
const PLANTINGS: Planted[] = ['open', 'half', 'full']
const WAYS: Measuring[] = ['eye', 'paces', 'tape']
const LAYINGS: LyingName[] = ['unsure', 'bare', 'thin', 'fair', 'thick']

/** The depth that is usual for the finish of a bed, in words. */
export function usualDepth(typed: BedTyped, table: OpenTable, language: Language): string {
  const known = [...table.finishes, ...table.soldOut].find(one => one.slug === typed.finish)
  const finish = known ?? table.finishes[0]
  return finish ? depthInWords(finish.depth.usual, table, language) : ''
}

/** What usually lies beneath a finish, in a sentence, and whether a homeowner may leave it out. */
export interface LayersAsked {
  words: string
  mayGo: boolean
  gone: boolean
}

export function layersAsked(typed: BedTyped, table: OpenTable, language: Language): LayersAsked | null {
  const finish = table.finishes.find(({ slug }) => slug === typed.finish)
  const layers = finish ? usualLayers(finish, table.whole) : []
  if (!finish || layers.length === 0) return null
  const mayGo = finish.layersOptional
  const gone = mayGo && typed.layers === 'none'
  const list = layersListed(layers, table, language)
  return { words: t(language, gone ? 'form.layers-gone' : 'form.layers', { list }), mayGo, gone }
}

/** With what a bed begins as the one before, in the words of a bed that is shown. */
export function restInWords(
  { finish, planted, lying, depth, measuredBy }: BedTyped,
  table: OpenTable,
  language: Language,
): string {
  const picked = table.finishes.find(({ slug }) => slug === finish)?.name[language]
  const plants = PLANTINGS.find(value => value === planted)
  const mulch = LAYINGS.find(value => value === lying)
  return [
    picked ?? t(language, 'form.finish-unpicked'),
    plants && `${t(language, 'beds.planted')}: ${t(language, `beds.planted-${plants}`)}`,
    mulch && `${t(language, 'beds.lying')}: ${t(language, `beds.lying-${mulch}`)}`,
    depth && `${t(language, 'form.depth')}: ${depth}`,
    WAYS.includes(measuredBy as Measuring) && t(language, `form.measured-${measuredBy as Measuring}`),
  ]
    .filter(Boolean)
    .join(' · ')
}

/** How planted a bed may be. */
export function plantingsOf(language: Language): Option[] {
  return PLANTINGS.map(value => ({ value, label: t(language, `form.planted-${value}`) }))
}

/** What may lie there, with how deep a fair and a thick layer are taken to be. */
export function layingsOf(table: RateTable, language: Language): Option[] {
  const depths = {
    fair: depthInWords(table.lying.fair.m, table, language),
    thick: depthInWords(table.lying.thick.m, table, language),
  }
  return LAYINGS.map(value => ({ value, label: t(language, `form.lying-${value}`, depths) }))
}

/** Shapes and finishes to pick from, and the tiles of both, which every bed shows again. */
export function tilesOf(table: RateTable, language: Language) {
  const shapes = offeredShapes().map(value => ({
    value,
    label: t(language, `beds.shape-${value}`),
    ...shareTile(shapeIcon(shapeOf(value).icon), `shape-tile-${value}`),
  }))
  const finishes = table.finishes.map(finish => ({
    value: finish.slug,
    label: finish.name[language],
    ...shareFinish(finish, `finish-tile-${finish.slug}`),
    photo: finish.photo && photoPath(finish.photo),
  }))
  return {
    shapes,
    finishes,
    symbolsDrawing: drawSymbols([...shapes, ...finishes].map(({ symbol }) => symbol)),
  }
}
