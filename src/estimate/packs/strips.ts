import { Decimal, one, squareRoot, sumOf } from '../../lib/decimal.ts'
import type { Bed } from '../job/bed.ts'
import { plainOutlineOf } from '../job/outline.ts'
import { bedQuantities, toldSizes } from '../job/quantities.ts'
import { shapeOf } from '../shapes/all-shapes.ts'
import type { ExtraPack, Roll } from '../table/pack.ts'
import type { RateTable } from '../table/rate-table.ts'
import { wholeSteps } from './whole-steps.ts'

/** A rectangle that strips of a roll are laid over, along its longer side, and how many there are of it; in ft|m. */
export interface Ground {
  long: Decimal
  short: Decimal
  count: number
}

/**
 * The rectangles that a bed is covered by: those of its shape, else the one around its outline, else a square of its
 * area. Cut-outs don't count: strips are laid over them and cut.
 */
export function groundsOf(bed: Bed, table: RateTable): Ground[] {
  const own = shapeOf(bed.shape).rectangles?.(toldSizes(bed))
  return (own ?? [around(bed, table)]).map(([one, other]) => ({
    long: Decimal.max(one, other),
    short: Decimal.min(one, other),
    count: bed.count,
  }))
}

function around(bed: Bed, table: RateTable): [Decimal, Decimal] {
  const outline = plainOutlineOf(bed)
  if (outline) return [new Decimal(outline.width), new Decimal(outline.height)]
  const side = squareRoot(bedQuantities(bed, table).area)
  return [side, side]
}

/** Whether so much ground is bought by strips: only rolls that the table says so of. */
export function isByStrips(pack: ExtraPack, grounds: Ground[]): pack is Roll {
  return pack.kind === 'roll' && pack.strips && grounds.length > 0
}

/** How many strips lie side by side over a ground, each over the edge of the last: the first alone loses nothing by that. */
export function stripsOver({ short }: Ground, { width, overlap }: Roll): Decimal {
  return Decimal.max(one, wholeSteps(short.minus(overlap).div(one.times(width).minus(overlap))))
}

/** How much of a roll all strips take, in ft|m. A strip may be pieced where a roll ends. */
export function rollNeeded(grounds: Ground[], roll: Roll): Decimal {
  return sumOf(grounds.map(ground => ground.long.times(stripsOver(ground, roll)).times(ground.count)))
}
