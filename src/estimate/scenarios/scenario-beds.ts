import type { Bed, Job } from '../job/bed.ts'
import { extrasOf } from '../job/extras.ts'
import { isLaidWhole } from '../job/layers.ts'
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

/** Beds whose own errors go by the same points, the largest last, so that the order in which they were told can't matter. */
export interface ScenarioGroup {
  own: number
  beds: ScenarioBed[]
}

/** The beds that have a finish on top, and by the finish on top of them those that have it beneath. */
export interface ScenarioFinish extends ScenarioGroup {
  finish: Finish
  beneath: ScenarioGroup[]
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
  const finishes = finishesOf(job, table)
  const pointOf = new Map(
    finishes.map((finish, rank) => [finish.slug, ownPoint(finish, rank, table)] as const),
  )
  const perBulk = unitSystem(table.units).volumesPerBulk.toNumber()
  const all = job.beds.map((bed, index) =>
    scenarioBed(bed, index, quantities.beds[index]!, table, method, byEdge, perBulk),
  )
  const layered = all.filter(({ index }) => quantities.beds[index]!.layers.length > 0)
  const isTop = (slug: string) => (bed: ScenarioBed) => job.beds[bed.index]!.finish.slug === slug
  return finishes.map(finish => ({
    finish,
    own: pointOf.get(finish.slug)!,
    beds: all.filter(isTop(finish.slug)).sort(smallestFirst),
    beneath: finishes
      .map(top => ({
        own: pointOf.get(top.slug)!,
        beds: layered
          .filter(isTop(top.slug))
          .flatMap(bed => beneathOf(bed, finish, quantities, table))
          .sort(smallestFirst),
      }))
      .filter(({ beds }) => beds.length > 0),
  }))
}

/** The layers of a bed of one finish, each as a bed of its own with the errors of that bed: what lies there has no part in it. */
function beneathOf(
  bed: ScenarioBed,
  finish: Finish,
  quantities: JobQuantities,
  table: RateTable,
): ScenarioBed[] {
  const { volumesPerBulk } = unitSystem(table.units)
  const layers = quantities.beds[bed.index]!.layers.filter(layer => layer.finish.slug === finish.slug)
  return layers.map(layer => {
    const volume = layer.inPlace.div(volumesPerBulk)
    return {
      ...bed,
      volume: volume.toNumber(),
      cover: (bed.told ? volume : volume.div(layer.depth)).toNumber(),
      target: layer.depth.toNumber(),
      fresh: true,
      thinnest: 0,
      ground: 0,
      area: 0,
      edge: 0,
    }
  })
}

/** The same job with one entry changed. */
export function withChange(finishes: ScenarioFinish[], { bed: index, ...change }: Change): ScenarioFinish[] {
  const isOfIt = ({ beds }: ScenarioGroup) => beds.some(bed => bed.index === index)
  const changed = <Group extends ScenarioGroup>(group: Group): Group => {
    if (!isOfIt(group)) return group
    const beds = group.beds.map(bed => (bed.index === index ? { ...bed, ...change } : bed))
    return { ...group, beds: beds.sort(smallestFirst) }
  }
  return finishes.map(one => {
    const beneath = one.beneath.some(isOfIt) ? one.beneath.map(changed) : one.beneath
    const own = changed(one)
    return beneath === one.beneath ? own : { ...own, beneath }
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
  perBulk: number,
): ScenarioBed {
  const lying = bed.lying.m.toNumber()
  const volume = figures.inPlace.toNumber() / perBulk
  const told = bed.sizes.volume !== undefined
  return {
    index,
    volume,
    cover: told ? volume : volume / addedDepth(bed, table).toNumber(),
    ground: lying > 0 ? figures.lying.toNumber() / lying / perBulk : 0,
    area: figures.area.toNumber(),
    edge: byEdge ? (figures.edge?.toNumber() ?? 0) : 0,
    count: bed.count,
    errors: method.errors(bed, table),
    target: bed.depth.toNumber(),
    lying,
    lyingError: bed.lying.s.toNumber(),
    fresh: isLaidWhole(bed),
    thinnest: Number(thinnestOf(bed.finish, table)),
    slowness: slownessOf(bed, table).toNumber(),
    told,
  }
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
