import type { Slope, Work } from '../job/bed.ts'
import type { ShapeName } from '../shapes/all-shapes.ts'
import type { LyingName, Measuring, Planted } from '../table/rate-table.ts'

/** A figure as it is stored: exact, decimals as text, with the unit that it is in. */
export interface Figure {
  value: string
  unit: FigureUnit
}

export type FigureUnit = 'ft' | 'in' | 'ft2' | 'ft3' | 'm' | 'cm' | 'm2' | 'm3'

/** A size and how it was told; `spread` is its standard error in the same unit. What isn't said is left out. */
export interface SizeUnderstood extends Figure {
  spread?: string
  about?: true
  paced?: true
}

export interface CutOutUnderstood {
  shape: 'rectangle' | 'circle' | 'area'
  sizes: Record<string, SizeUnderstood>
  count: number
}

/** A layer beneath: a finish so deep, or an extra. */
export type LayerUnderstood = { finish: string; depth: Figure } | { extra: string }

/**
 * What was understood of one bed. What a rate table says is named and not copied: a layer by its name, finishes and
 * extras by their slugs, and `depth` is null where it is the finish's usual one.
 */
export interface BedUnderstood {
  shape: ShapeName
  sizes: Record<string, SizeUnderstood>
  cutOuts: CutOutUnderstood[]
  count: number
  measuredBy: Measuring
  planted: Planted
  lying: LyingName | (Figure & { spread?: string })
  work: Work
  finish: string
  depth: Figure | null
  noEdge: Figure
  carry: Figure
  stairs: number
  /** Left out where it is level, and where the gate is wide. */
  slope?: Exclude<Slope, 'level'>
  narrowGate?: true
  extras: string[]
  /** Left out where it has none beneath. */
  layers?: LayerUnderstood[]
}

/** What was understood of a job, as it is stored: never rewritten, and so of whatever format was in use then. */
export interface JobUnderstood {
  format: number
  beds: BedUnderstood[]
  extras: string[]
  postcode: string
}

/** What makes of each format one of the next: pure, and never changed once jobs of that format are stored. */
const STEPS: ((job: JobUnderstood) => JobUnderstood)[] = [from1to2]

export const FORMAT = STEPS.length + 1

/**
 * A stored job of whatever age as they are now.
 * @throws {Error} when a newer version of the program stored it
 */
export function upToDate(stored: JobUnderstood): JobUnderstood {
  if (stored.format > FORMAT)
    throw new Error(`a job of format ${stored.format}: this version knows ${FORMAT}`)
  return STEPS.slice(stored.format - 1).reduce((older, step) => step(older), stored)
}

/** Beds may have layers beneath: a program that doesn't know of them mustn't price such a bed without. */
function from1to2(job: JobUnderstood): JobUnderstood {
  return { ...job, format: 2 }
}
