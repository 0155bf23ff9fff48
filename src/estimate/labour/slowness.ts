import type { Bed } from '../bed.ts'
import { Decimal, one, zero } from '../decimal.ts'
import type { RateTable } from '../rate-table.ts'

/** What multiplies the crew hours of laying in a bed: the way from the heap, the stairs on it, and the planting. */
export function slownessOf(bed: Bed, table: RateTable): Decimal {
  const { carry, stair, planted } = table.labour
  const beyond = Decimal.max(zero, bed.carry.minus(carry.free)).div(carry.each)
  return one
    .plus(beyond.times(carry.adds))
    .times(one.plus(new Decimal(stair).times(bed.stairs)))
    .times(planted[bed.planted])
}
