import type { Decimal } from '../../lib/decimal.ts'
import type { ShapeName } from '../shapes/all-shapes.ts'
import type { Size } from '../shapes/sizes.ts'
import type { Extra, Finish, LyingName, Measuring, Planted } from '../table/rate-table.ts'
import type { FaultKey } from './fault-keys.ts'

/**
 * What lies in the bed already: m how deep, s its standard error, both in in|cm. It was told by the name of a layer, or
 * by a depth (layer is null then) that may have had a spread.
 */
export interface Lying {
  m: Decimal
  s: Decimal
  layer: LyingName | null
  spread: Decimal | null
}

/** Something in a bed that isn't dressed, as a tree pit, a slab or a drain: count of them alike. */
export interface CutOut {
  shape: 'rectangle' | 'circle' | 'area'
  sizes: Record<string, Size>
  count: number
}

/** Whether the depth is the target less what lies there, or the whole of it. */
export type Work = 'top-up' | 'new'

/** How a bed lies, in so far as it slows the work. */
export type Slope = 'level' | 'slope' | 'steep'

/**
 * What lies beneath the finish of a bed: another finish so deep, in in|cm, or an extra by area, as fabric is. Laid over
 * whatever lies there, and over all of the bed.
 */
export type Layer = { finish: Finish; depth: Decimal } | { extra: Extra }

/** A bed as understood. depth in in|cm; usual: no depth was told, so it is the finish's own. */
export interface Bed {
  shape: ShapeName
  sizes: Record<string, Size>
  cutOuts: CutOut[]
  count: number
  measuredBy: Measuring
  planted: Planted
  lying: Lying
  work: Work
  finish: Finish
  depth: Decimal
  usual: boolean
  /** From the top down; none for most beds. */
  layers: Layer[]
  /** How much of its outline gets no edge, as along a wall, in ft|m. */
  noEdge: Decimal
  /** From the heap to the bed, in ft|m. */
  carry: Decimal
  /** Stairs on the way. */
  stairs: number
  slope: Slope
  /** On the way is a gate that no wheelbarrow fits through. */
  narrowGate: boolean
  /** Extras of this bed alone, besides those of the whole job. */
  extras: Extra[]
}

export interface Job {
  beds: Bed[]
  extras: Extra[]
  postcode: string
}

/** A bed as typed or sent, every field a string; also as measured on site, which is told anew. */
export interface BedTold {
  shape: string
  sizes: Record<string, string>
  count: string | number
  measuredBy: string
  planted: string
  lying: string
  finish: string
  depth: string
  /** What follows is left out where nothing was said. */
  work?: string
  cutOuts?: string
  noEdge?: string
  carry?: string
  stairs?: string
  slope?: string
  gate?: string
  extras?: string[]
  /** Left out for those that the finish usually has beneath, 'none' where a homeowner wants none; the staff name each. */
  layers?: 'none' | LayerTold[]
  /** As measured: which of the beds that were told it is, counted from 0; null for one found on site. */
  toldBed?: number | null
  /** Which of the job's stops it is at, counted from 0; left out where the job has none. */
  stop?: number
}

/**
 * One of several spots of a job, as an entrance: its name, a note for the crew, and where it is; the latter two may be ''.
 * `id` is that of the place's own stop, left out until it is kept.
 */
export interface StopTold {
  id?: number
  name: string
  note: string
  spot: string
}

/** A layer beneath: the slug of a finish or an extra, and how deep; '' as deep as usual, and of an extra. */
export interface LayerTold {
  what: string
  depth: string
}

export interface Told {
  beds: BedTold[]
  /** Left out where the job has none; else every bed is at one of them, and the beds stand in their order. */
  stops?: StopTold[]
  extras: string[]
  postcode: string
}

/** What is wrong and where: field 'beds.0.sizes.length', key 'fault.length-unreadable'. */
export interface Fault {
  field: string
  key: FaultKey
  params: Record<string, string>
}
