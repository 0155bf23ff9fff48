import { type ShapeName, shapeOf } from '../../../shapes/all-shapes.ts'
import type { Sizes } from '../../../shapes/sizes.ts'
import { type Size, valuesOf } from '../../../shapes/sizes.ts'
import type { Measuring, RateTable } from '../../../table/rate-table.ts'
import type { Bed } from '../../bed.ts'
import { cutOutArea } from '../../cut-outs.ts'
import { bedQuantities } from '../../quantities.ts'
import type { BedErrors } from '../method.ts'

/** What a volume that was told is out by, at least. */
const VOLUME_ERROR = 0.05

/** How uncertain a length is, σ with its shared part ρ. */
interface Way {
  sigma: number
  rho: number
}

/** Of one figure's sizes: the shared error with its sign, and the own one squared. */
interface Parts {
  shared: number
  own: number
}

/**
 * The errors of a bed, by the way it was measured or as if it were measured another way: shared |Σeᵢ|σ√ρ, own
 * √(Σeᵢ²σ²(1−ρ) + f² + (δ/(1−share))²), of the edge with elasticities of its own and without f and δ. Of a bed with
 * cut-outs the errors of its outline weigh as outline ÷ what is left, those of a cut-out as minus its area ÷ what is left;
 * of cut-outs alike each has its own.
 */
export function bedErrors(bed: Bed, table: RateTable, by: Measuring | null = null): BedErrors {
  if (bed.sizes.volume) {
    const own = volumeError(bed.sizes.volume, table)
    return { shared: 0, own, ownArea: own, edge: 0, ownEdge: 0 }
  }
  const wayOf = (size: Size, power: number) => wayOfSize(size, power, bed, table, by)
  const area = areaErrors(bed, table, wayOf)
  let known: Parts | undefined
  const edge = () => {
    known ??= edgeErrors(bed, table, wayOf)
    return known
  }
  return {
    shared: Math.abs(area.shared),
    own: Math.sqrt(area.own + plantedError(bed, table) ** 2),
    ownArea: Math.sqrt(area.own),
    // Only where something is priced by the edge is its error looked for.
    get edge() {
      return Math.abs(edge().shared)
    },
    get ownEdge() {
      return Math.sqrt(edge().own)
    },
  }
}

/** What the share planted adds to a bed's own error: δ/(1 − share). */
export function plantedError({ planted }: Bed, table: RateTable): number {
  return Number(table.plantedGive[planted]) / (1 - Number(table.planted[planted]))
}

function areaErrors(bed: Bed, table: RateTable, wayOf: WayOf): Parts {
  const outline = shapeErrors(bed.shape, bed.sizes, table, wayOf)
  if (bed.cutOuts.length === 0) return outline
  const left = bedQuantities(bed, table).area
  const weight = left.plus(cutOutArea(bed.cutOuts)).div(left).toNumber()
  const parts = { shared: weight * outline.shared, own: weight ** 2 * outline.own }
  for (const cutOut of bed.cutOuts) {
    const each = cutOutArea([{ ...cutOut, count: 1 }])
      .div(left)
      .toNumber()
    const part = shapeErrors(cutOut.shape, cutOut.sizes, table, wayOf)
    parts.shared -= each * cutOut.count * part.shared
    parts.own += each ** 2 * cutOut.count * part.own
  }
  return parts
}

function shapeErrors(name: ShapeName, sizes: Record<string, Size>, table: RateTable, wayOf: WayOf): Parts {
  const { shared, own } = summed(sizes, shapeOf(name).elasticities(valuesOf(sizes)), wayOf)
  return { shared, own: own + formError(name, sizes, table) ** 2 }
}

/** How roughly a shape describes a bed of these sizes. */
export function formError(name: ShapeName, sizes: Record<string, Size>, table: RateTable): number {
  const form = shapeOf(name).formError(valuesOf(sizes))
  return typeof form === 'number' ? form : Number(table.forms[form])
}

// What gets no edge is as sure as it was told: the rest of the outline carries all of its error.
function edgeErrors(bed: Bed, table: RateTable, wayOf: WayOf): Parts {
  const edge = bedQuantities(bed, table).edge?.toNumber() ?? 0
  if (edge <= 0) return { shared: 0, own: 0 }
  const weight = (edge + bed.noEdge.toNumber()) / edge
  const { shared, own } = summed(bed.sizes, edgeElasticities(bed.shape, valuesOf(bed.sizes)), wayOf)
  return { shared: weight * shared, own: weight ** 2 * own }
}

type WayOf = (size: Size, power: number) => Way

function summed(sizes: Record<string, Size>, elasticities: number[], wayOf: WayOf): Parts {
  const parts = { shared: 0, own: 0 }
  for (const [index, [name, size]] of Object.entries(sizes).entries()) {
    const { sigma, rho } = wayOf(size, name === 'area' ? 2 : 1)
    parts.shared += elasticities[index]! * sigma * Math.sqrt(rho)
    parts.own += (elasticities[index]! * sigma) ** 2 * (1 - rho)
  }
  return parts
}

const STEP = 1e-6

/** How the edge of a shape follows its sizes. */
export function edgeElasticities(name: ShapeName, sizes: Sizes): number[] {
  const shape = shapeOf(name)
  if (shape.edgeElasticities) return shape.edgeElasticities(sizes)
  const edge = shape.edge(sizes)!
  return Object.entries(sizes).map(([size, value]) => {
    const moved = (by: number) => shape.edge({ ...sizes, [size]: value.times(1 + by) })!
    return moved(STEP)
      .minus(moved(-STEP))
      .div(edge)
      .div(2 * STEP)
      .toNumber()
  })
}

/**
 * How uncertain one size is. 'about 20' is by eye however the rest was measured; '20-25' is as uncertain as it says. An
 * area's spread is twice that of the length it stands for.
 */
export function wayOfSize(size: Size, power: number, bed: Bed, table: RateTable, by: Measuring | null): Way {
  const way = by ?? (size.about ? 'eye' : size.paced ? 'paces' : bed.measuredBy)
  const { sigma, rho } = table.measuring[size.spread && !by ? 'eye' : way]
  if (!size.spread || by) return { sigma: Number(sigma), rho: Number(rho) }
  return { sigma: size.spread.div(size.value).toNumber() / power, rho: Number(rho) }
}

function volumeError(volume: Size, table: RateTable): number {
  const told = volume.spread?.div(volume.value).toNumber() ?? 0
  const guessed = volume.about ? Number(table.measuring.eye.sigma) : 0
  return Math.hypot(VOLUME_ERROR, told, guessed)
}
