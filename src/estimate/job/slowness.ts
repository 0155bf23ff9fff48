import { type Decimal, figureOf, one, zero } from '../../lib/decimal.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Bed } from './bed.ts'

/**
 * What multiplies the labor hours of laying in a bed: the way from the heap, the stairs and a narrow gate on it, how it
 * slopes, and the planting.
 */
export function slownessOf(bed: Bed, table: RateTable): Decimal {
  const { carry, stair, planted } = table.labor
  const beyond = bed.carry.isZero() ? zero : bed.carry.minus(carry.free)
  const way = beyond.gt(0) ? one.plus(beyond.div(carry.each).times(carry.adds)) : one
  const stairs = bed.stairs > 0 ? one.plus(figureOf(stair).times(bed.stairs)) : one
  const figures = [planted[bed.planted], slopeOf(bed, table), gateOf(bed, table)]
  // Most of them are one.
  const onFoot = stairs === one ? way : way.times(stairs)
  return figures.reduce((all, figure) => (figure === '1' ? all : all.times(figureOf(figure))), onFoot)
}

/** What the slope of a bed multiplies the hours by. */
export function slopeOf({ slope }: Pick<Bed, 'slope'>, { labor }: RateTable): string {
  return slope === 'level' ? '1' : labor[slope]
}

/** What the gate on the way to it does. */
export function gateOf({ narrowGate }: Pick<Bed, 'narrowGate'>, { labor }: RateTable): string {
  return narrowGate ? labor.gate : '1'
}
