import { type ShapeName, shapeOf } from '../../../shapes/all-shapes.ts'
import { type Size, valuesOf } from '../../../shapes/sizes.ts'
import type { RateTable } from '../../../table/rate-table.ts'
import type { Bed } from '../../bed.ts'
import type { Refusal } from '../method.ts'
import { bedErrors, formError, plantedError } from './errors.ts'

// Beyond these a range of bell curves would promise more than it holds, and a bed more could make a job cheaper.
const MOST_OWN = 0.35
const MOST_SHARED = 0.5

/** Shapes of which little is left where much is taken off: another telling of the same bed is surer. */
const BETTER_TOLD: Partial<Record<ShapeName, Refusal['key']>> = {
  ring: 'fault.ring-narrow',
  'l-shape': 'fault.l-shape-narrow',
}

/** Fewer distances from a stake miss too much of what lies between them. */
const FEWEST_RADII = 8

/** From three strips up it isn't how few there are that makes a bed uncertain. */
const FEW_WIDTHS = 0.2

// How high a triangle by its sides stands on the longest, as a share of that. Below, small errors of the sides bend what
// they do to the area: of 200,000 simulations by tape the range held 79.4 % at 0.26 (8, 30 and 30 ft), 77.7 % at 0.20.
const FLATTEST = 0.25

/** What is too uncertain in a bed for any range to keep its promise, and what to tell instead. */
export function refusal(bed: Bed, table: RateTable): Refusal | null {
  if (bed.shape === 'radii' && Object.keys(bed.sizes).length < FEWEST_RADII)
    return { field: 'sizes.radii', key: 'fault.radii-few' }
  const sides = bed.shape === 'sides' ? bySides(bed) : null
  if (sides) return sides
  if (!isUnsure(bed, table)) return null
  if (bed.cutOuts.length > 0 && !isUnsure({ ...bed, cutOuts: [] }, table))
    return { field: 'cutOuts', key: 'fault.cut-outs-unsure' }
  if (plantedError(bed, table) > MOST_OWN) return { field: 'planted', key: 'fault.planted-unsure' }
  if ('offsets.0' in bed.sizes && formError(bed.shape, bed.sizes, table) > FEW_WIDTHS)
    return { field: 'sizes.offsets', key: 'fault.offsets-more' }
  return { field: `sizes.${unsurest(bed)}`, key: BETTER_TOLD[bed.shape] ?? 'fault.too-unsure' }
}

function isUnsure(bed: Bed, table: RateTable): boolean {
  const { shared, own } = bedErrors(bed, table)
  return own > MOST_OWN || shared > MOST_SHARED
}

function bySides(bed: Bed): Refusal | null {
  if (bed.measuredBy !== 'tape') return { field: 'measuredBy', key: 'fault.sides-tape' }
  const guessed = Object.entries(bed.sizes).find(([, size]) => size.about || size.paced || size.spread)
  if (guessed) return { field: `sizes.${guessed[0]}`, key: 'fault.sides-tape' }
  const sizes = valuesOf(bed.sizes)
  const [longest, side] = Object.entries(sizes).reduce((one, other) => (other[1].gt(one[1]) ? other : one))
  const height = shapeOf('sides').area(sizes, side).times(2).div(side)
  return height.lt(side.times(FLATTEST)) ? { field: `sizes.${longest}`, key: 'fault.sides-flat' } : null
}

/** The size with the widest range of its own; else the last, which lies within the others. A list by its own name. */
function unsurest({ sizes }: Bed): string {
  const spread = ({ spread, value }: Size) => (spread && !value.isZero() ? spread.div(value).toNumber() : 0)
  const all = Object.entries(sizes)
  const [widest] = all.reduce((one, other) => (spread(other[1]) >= spread(one[1]) ? other : one))
  return widest.split('.')[0]!
}
