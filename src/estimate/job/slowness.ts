import { Decimal, one } from '../../lib/decimal.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Bed } from './bed.ts'

/**
 * What multiplies the labor hours of laying in a bed: the way from the heap, the stairs and a narrow gate on it, how it
 * slopes, and the planting.
 */
export function slownessOf(bed: Bed, table: RateTable): Decimal {
  const { carry, stair, planted } = table.labor
  const beyond = bed.carry.minus(carry.free)
  const way = beyond.gt(0) ? one.plus(beyond.div(carry.each).times(carry.adds)) : one
  const stairs = bed.stairs > 0 ? one.plus(new Decimal(stair).times(bed.stairs)) : one
  return way.times(stairs).times(planted[bed.planted]).times(slopeOf(bed, table)).times(gateOf(bed, table))
}

/** What the slope of a bed multiplies the hours by. */
export function slopeOf({ slope }: Pick<Bed, 'slope'>, { labor }: RateTable): string {
  return slope === 'level' ? '1' : labor[slope]
}

/** What the gate on the way to it does. */
export function gateOf({ narrowGate }: Pick<Bed, 'narrowGate'>, { labor }: RateTable): string {
  return narrowGate ? labor.gate : '1'
}
