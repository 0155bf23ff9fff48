import { zero } from '../../../../lib/decimal.ts'
import { type ShapeName, shapeOf } from '../../../shapes/all-shapes.ts'
import type { Size } from '../../../shapes/sizes.ts'
import { valuesOf } from '../../../shapes/sizes.ts'
import type { Measuring, RateTable } from '../../../table/rate-table.ts'
import type { Bed } from '../../bed.ts'
import { cutOutArea } from '../../cut-outs.ts'
import type { BedErrors, Refusal } from '../method.ts'

interface PartErrors {
  shared: number
  own: number
}

/** How roughly each shape described a bed when this method was made; of one that came later nothing was stored by it. */
const OWN_ERROR: Record<string, number> = {
  rectangle: 0,
  strip: 0,
  curvy: 0.05,
  circle: 0,
  'circle-round': 0,
  'half-circle': 0,
  'quarter-circle': 0,
  oval: 0,
  triangle: 0,
  ring: 0,
  sides: 0,
  trapezoid: 0,
  'l-shape': 0,
  offsets: 0,
  'uneven-offsets': 0,
  radii: 0,
  area: 0,
  volume: 0.05,
}

const MOST_OWN = 0.3
// Told spreads ('0-40') could otherwise make a bed negative in the lowest scenarios that count.
const MOST_SHARED = 0.5
// Where cut-outs bring a bed's own error beyond this, MOST_OWN hides too much of it: of 100,000 simulations of a bed by eye,
// half of it cut out (0.31), the range held 79 %; with 60 % cut out (0.41) 70 %, with 72 % (0.63) 54 %.
const LARGEST_CUT = 0.35

type WayOf = (size: Size, power: number) => { sigma: number; rho: number }

/**
 * The errors of a bed's area, by the way it was measured or as if it were measured another way. Of a bed with
 * cut-outs those of its outline weigh as outline ÷ what is left, those of a cut-out as minus its area ÷ what is left;
 * of cut-outs alike each has its own. An edge takes half the shared error of its area.
 */
export function bedErrors(bed: Bed, table: RateTable, by: Measuring | null = null): BedErrors {
  const whole = wholeErrors(bed, table, by)
  const shared = Math.min(whole.shared, MOST_SHARED)
  const own = Math.min(whole.own, MOST_OWN)
  return { shared, own, ownArea: own, edge: shared / 2, ownEdge: 0 }
}

/**
 * Whether so much is cut out that, by the way it was measured, no range could hold what is left as often as it
 * promises: half a bed by eye is the most.
 */
export function tooMuchCutOut(bed: Bed, table: RateTable): Refusal | null {
  if (bed.cutOuts.length === 0) return null
  const own = (cutOuts: Bed['cutOuts']) => wholeErrors({ ...bed, cutOuts }, table, null).own
  const isTooMuch = own(bed.cutOuts) > LARGEST_CUT && own([]) <= LARGEST_CUT
  return isTooMuch ? { field: 'cutOuts', key: 'fault.cut-outs-unsure' } : null
}

function wholeErrors(bed: Bed, table: RateTable, by: Measuring | null): PartErrors {
  const shape = shapeOf(bed.shape)
  const ownError = OWN_ERROR[bed.shape] ?? 0
  if (bed.sizes.volume) return { shared: 0, own: volumeError(bed.sizes.volume, ownError, table) }
  const wayOf: WayOf = (size, power) => sizeError(size, power, bed, table, by)
  const outline = partErrors(bed.shape, bed.sizes, wayOf)
  if (bed.cutOuts.length === 0)
    return { shared: Math.abs(outline.shared), own: Math.sqrt(outline.own + ownError ** 2) }
  const whole = shape.area(valuesOf(bed.sizes), zero)
  const left = whole.minus(cutOutArea(bed.cutOuts))
  const weight = whole.div(left).toNumber()
  let shared = weight * outline.shared
  let own = weight ** 2 * (outline.own + ownError ** 2)
  for (const cutOut of bed.cutOuts) {
    const each = cutOutArea([{ ...cutOut, count: 1 }])
      .div(left)
      .toNumber()
    const part = partErrors(cutOut.shape, cutOut.sizes, wayOf)
    shared -= each * cutOut.count * part.shared
    own += each ** 2 * cutOut.count * part.own
  }
  return { shared: Math.abs(shared), own: Math.sqrt(own) }
}

/** Of one shape's area: the shared error with its sign, and its own one squared. */
function partErrors(shape: ShapeName, sizes: Record<string, Size>, wayOf: WayOf): PartErrors {
  const elasticities = shapeOf(shape).elasticities(valuesOf(sizes))
  const errors = { shared: 0, own: 0 }
  Object.entries(sizes).forEach(([name, size], index) => {
    const { sigma, rho } = wayOf(size, name === 'area' ? 2 : 1)
    errors.shared += elasticities[index]! * sigma * Math.sqrt(rho)
    errors.own += (elasticities[index]! * sigma) ** 2 * (1 - rho)
  })
  return errors
}

// 'about 20' is by eye however the rest was measured; '20-25' is as uncertain as it says. An area's spread is twice
// that of the length it stands for.
function sizeError(size: Size, power: number, bed: Bed, table: RateTable, by: Measuring | null) {
  const way = by ?? (size.about ? 'eye' : size.paced ? 'paces' : bed.measuredBy)
  const { sigma, rho } = table.measuring[size.spread && !by ? 'eye' : way]
  if (!size.spread || by) return { sigma: Number(sigma), rho: Number(rho) }
  return { sigma: size.spread.div(size.value).toNumber() / power, rho: Number(rho) }
}

function volumeError(volume: Size, usual: number, table: RateTable): number {
  const told = volume.spread?.div(volume.value).toNumber() ?? 0
  const guessed = volume.about ? Number(table.measuring.eye.sigma) : 0
  return Math.min(Math.hypot(usual, told, guessed), MOST_OWN)
}
