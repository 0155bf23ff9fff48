import { type Decimal, figureOf, one, sumOf, zero } from '../../lib/decimal.ts'
import { shapeOf } from '../shapes/all-shapes.ts'
import { type Sizes, valuesOf } from '../shapes/sizes.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Bed, Job } from './bed.ts'
import { cutOutArea } from './cut-outs.ts'
import { isLaidWhole, type LayerVolume, layerVolumes } from './layers.ts'
import { slownessOf } from './slowness.ts'

/**
 * One bed's figures as told: area in ft²|m² without its cut-outs, edge in ft|m without what gets none (null where
 * unknown), inPlace and lying (the old material, loose on the truck) in ft³|m³.
 */
export interface BedQuantities {
  area: Decimal
  edge: Decimal | null
  inPlace: Decimal
  lying: Decimal
  /** Its layers of finishes beneath. */
  layers: LayerVolume[]
}

/** What a bed takes of all finishes together, in ft³|m³. */
export function inPlaceInAll({ inPlace, layers }: Pick<BedQuantities, 'inPlace' | 'layers'>): Decimal {
  return layers.length === 0 ? inPlace : sumOf([inPlace, ...layers.map(layer => layer.inPlace)])
}

/** What a finish takes, in ft³|m³: in place, and slowed, the volume that would take as long with nothing in the way. */
export interface FinishQuantities {
  finish: Finish
  inPlace: Decimal
  slowed: Decimal
}

/** A whole job's figures, every bed counted; finishes in the order of the rate table. */
export interface JobQuantities {
  beds: BedQuantities[]
  area: Decimal
  inPlace: Decimal
  finishes: FinishQuantities[]
}

export function toldSizes(bed: Bed): Sizes {
  return valuesOf(bed.sizes)
}

/** The depth to add of the finish, in in|cm: the target less what stays lying there, never below its thinnest top-up. */
export function addedDepth(bed: Bed, table: RateTable): Decimal {
  const lying = isLaidWhole(bed) ? zero : layerLying(bed)
  const thinnest = figureOf(thinnestOf(bed.finish, table))
  const missing = lying.isZero() ? bed.depth : bed.depth.minus(lying)
  return missing.gt(thinnest) ? missing : thinnest
}

/** What lies there, in in|cm, never less than nothing. */
function layerLying({ lying }: Bed): Decimal {
  return lying.m.gt(zero) ? lying.m : zero
}

/** The thinnest layer, in in|cm, that is ever added. */
export function thinnestOf(finish: Finish, table: RateTable): string {
  return finish.thinnestTopUp ?? table.thinnestTopUp
}

/** The allowance for settling and loss, as a share of the volume in place. */
export function allowanceOf(finish: Finish, table: RateTable): string {
  return finish.allowance ?? table.allowance
}

const known = new WeakMap<Bed, { table: RateTable; quantities: BedQuantities }>()

/**
 * One bed's quantities. A told volume is taken as it is: it was what the bed took, plants and layer included. A page
 * asks for them several times, so those of the table asked for last are kept as long as the bed is.
 */
export function bedQuantities(bed: Bed, table: RateTable): BedQuantities {
  const last = known.get(bed)
  if (last?.table === table) return last.quantities
  const quantities = workOut(bed, table)
  known.set(bed, { table, quantities })
  return quantities
}

function workOut(bed: Bed, table: RateTable): BedQuantities {
  const system = unitSystem(table.units)
  const shape = shapeOf(bed.shape)
  const sizes = toldSizes(bed)
  const whole = shape.area(sizes, bed.depth.div(system.depthsPerLength))
  const area = bed.cutOuts.length === 0 ? whole : whole.minus(cutOutArea(bed.cutOuts))
  const edge = shape.edge(sizes)
  const open = area.times(one.minus(figureOf(table.planted[bed.planted])))
  // Divided last: a twelfth has no end in decimals, and half a cent must stay half a cent.
  const volumeAt = (depth: Decimal) => (depth.isZero() ? zero : open.times(depth).div(system.depthsPerLength))
  return {
    area,
    edge: bed.noEdge.isZero() ? edge : (edge?.minus(bed.noEdge) ?? null),
    inPlace: sizes.volume ?? volumeAt(addedDepth(bed, table)),
    lying: volumeAt(layerLying(bed)),
    // A told volume was what the bed took, so its area is what is open of it.
    layers: layerVolumes(bed, depth =>
      sizes.volume ? sizes.volume.times(depth).div(bed.depth) : volumeAt(depth),
    ),
  }
}

export function jobQuantities(job: Job, table: RateTable): JobQuantities {
  const beds = job.beds.map(bed => bedQuantities(bed, table))
  const counted = (figure: (bed: BedQuantities) => Decimal) =>
    sumOf(beds.map((bed, index) => times(job.beds[index]!.count, figure(bed))))
  return {
    beds,
    area: counted(bed => bed.area),
    inPlace: counted(inPlaceInAll),
    finishes: finishesOf(job, table).map(finish => finishQuantities(finish, beds, job, table)),
  }
}

// Mostly once.
function times(count: number, figure: Decimal): Decimal {
  return count === 1 ? figure : figure.times(count)
}

function finishQuantities(
  finish: Finish,
  beds: BedQuantities[],
  job: Job,
  table: RateTable,
): FinishQuantities {
  const volumes = beds.flatMap((quantities, index) => {
    const bed = job.beds[index]!
    const own = volumesOf(finish, bed, quantities)
    if (own.length === 0) return []
    const volume = times(bed.count, sumOf(own))
    const slowness = slownessOf(bed, table)
    return [{ volume, slowed: slowness === one ? volume : volume.times(slowness) }]
  })
  return {
    finish,
    inPlace: sumOf(volumes.map(({ volume }) => volume)),
    slowed: sumOf(volumes.map(({ slowed }) => slowed)),
  }
}

// As what lies on top and as layers beneath.
function volumesOf(finish: Finish, bed: Bed, { inPlace, layers }: BedQuantities): Decimal[] {
  const beneath = layers.filter(layer => layer.finish.slug === finish.slug).map(layer => layer.inPlace)
  return bed.finish.slug === finish.slug ? [inPlace, ...beneath] : beneath
}

/** The finishes of the job, on top or beneath, each once, in the order of the rate table. */
export function finishesOf(job: Job, table: RateTable): Finish[] {
  const used = new Set(
    job.beds.flatMap(({ finish, layers }) => [
      finish.slug,
      ...layers.flatMap(layer => ('finish' in layer ? [layer.finish.slug] : [])),
    ]),
  )
  return table.finishes.filter(finish => used.has(finish.slug))
}
