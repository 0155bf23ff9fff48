import type { Decimal } from '../../lib/decimal.ts'
import type { Bed, Job } from '../job/bed.ts'
import { extrasOf } from '../job/extras.ts'
import type { BedErrors, Method } from '../job/methods/method.ts'
import {
  addedDepth,
  type BedQuantities,
  finishesOf,
  type JobQuantities,
  thinnestOf,
} from '../job/quantities.ts'
import { slownessOf } from '../job/slowness.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { OWN_POINTS } from './points.ts'

/**
 * One entry of beds in the figures the scenarios use. cover × depth is its volume in yd³|m³, ground × lying that of
 * the old material as it lies; depths in in|cm.
 */
export interface ScenarioBed {
  index: number
  volume: number
  cover: number
  ground: number
  area: number
  /** In ft|m; 0 where nothing is priced by it. */
  edge: number
  count: number
  errors: BedErrors
  target: number
  lying: number
  lyingError: number
  /** The whole target is laid, whatever lies there. */
  fresh: boolean
  thinnest: number
  /** What multiplies the labor hours of laying here. */
  slowness: number
  told: boolean
}

/** The beds of one finish, the largest last, so that the order in which they were told can't matter. */
export interface ScenarioFinish {
  finish: Finish
  own: number
  beds: ScenarioBed[]
}

/** A change to one entry, by its index, to see what a better figure would do. */
export interface Change {
  bed: number
  errors?: BedErrors
  lyingError?: number
}

export function scenarioFinishes(
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
  method: Method,
): ScenarioFinish[] {
  const byEdge = extrasOf(job, table).some(extra => extra.per === 'edge')
  return finishesOf(job, table).map((finish, rank) => ({
    finish,
    own: ownPoint(finish, rank, table),
    beds: job.beds
      .flatMap((bed, index) =>
        bed.finish.slug === finish.slug
          ? [scenarioBed(bed, index, quantities.beds[index]!, table, method, byEdge)]
          : [],
      )
      .sort(smallestFirst),
  }))
}

/** The same job with one entry changed. */
export function withChange(finishes: ScenarioFinish[], { bed: index, ...change }: Change): ScenarioFinish[] {
  return finishes.map(one => {
    if (!one.beds.some(bed => bed.index === index)) return one
    const beds = one.beds.map(bed => (bed.index === index ? { ...bed, ...change } : bed))
    return { ...one, beds: beds.sort(smallestFirst) }
  })
}

// By its place in the table, so that a bed of another finish added later doesn't change this one's points.
function ownPoint(finish: Finish, rank: number, table: RateTable): number {
  const place = table.finishes.length > OWN_POINTS ? rank : table.finishes.indexOf(finish)
  return Math.min(place, OWN_POINTS - 1)
}

function scenarioBed(
  bed: Bed,
  index: number,
  figures: BedQuantities,
  table: RateTable,
  method: Method,
  byEdge: boolean,
): ScenarioBed {
  const { volumesPerBulk } = unitSystem(table.units)
  const volume = figures.inPlace.div(volumesPerBulk)
  const told = bed.sizes.volume !== undefined
  return {
    index,
    volume: volume.toNumber(),
    cover: (told ? volume : volume.div(addedDepth(bed, table))).toNumber(),
    ground: groundOf(bed, figures, volumesPerBulk),
    area: figures.area.toNumber(),
    edge: byEdge ? (figures.edge?.toNumber() ?? 0) : 0,
    count: bed.count,
    errors: method.errors(bed, table),
    target: bed.depth.toNumber(),
    lying: bed.lying.m.toNumber(),
    lyingError: bed.lying.s.toNumber(),
    fresh: bed.work === 'new',
    thinnest: Number(thinnestOf(bed.finish, table)),
    slowness: slownessOf(bed, table).toNumber(),
    told,
  }
}

function groundOf(bed: Bed, { lying }: BedQuantities, volumesPerBulk: Decimal): number {
  return bed.lying.m.gt(0) ? lying.div(bed.lying.m).div(volumesPerBulk).toNumber() : 0
}

function smallestFirst(a: ScenarioBed, b: ScenarioBed): number {
  return (
    a.volume - b.volume ||
    a.cover - b.cover ||
    a.errors.shared - b.errors.shared ||
    a.errors.own - b.errors.own ||
    a.lying - b.lying ||
    a.lyingError - b.lyingError ||
    Number(a.fresh) - Number(b.fresh) ||
    a.slowness - b.slowness ||
    a.edge - b.edge ||
    // Looking for the error of an edge is dear.
    (a.edge > 0 ? a.errors.edge - b.errors.edge || a.errors.ownEdge - b.errors.ownEdge : 0) ||
    a.count - b.count
  )
}
