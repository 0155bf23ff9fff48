import { Decimal, one } from '../../lib/decimal.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Bed } from './bed.ts'

/** What multiplies the labor hours of laying in a bed: the way from the heap, the stairs on it, and the planting. */
export function slownessOf(bed: Bed, table: RateTable): Decimal {
  const { carry, stair, planted } = table.labor
  const beyond = bed.carry.minus(carry.free)
  const way = beyond.gt(0) ? one.plus(beyond.div(carry.each).times(carry.adds)) : one
  const stairs = bed.stairs > 0 ? one.plus(new Decimal(stair).times(bed.stairs)) : one
  return way.times(stairs).times(planted[bed.planted])
}
