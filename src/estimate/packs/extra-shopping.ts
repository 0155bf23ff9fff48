import { type Decimal, one, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, isFor } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { atCost, type Buying, buyForExtra, offerOf } from './offers.ts'
import { type Ground, groundsOf } from './strips.ts'

/** What is bought for an extra: need in its own unit without what is wasted, grounds what rolls are laid over. */
export interface ExtraBought {
  extra: Extra
  need: Decimal
  grounds: Ground[]
  buying: Buying
}

/** Buys what an extra needs; null where it needs nothing, or nothing is known of that. */
export function boughtForExtra(
  extra: Extra,
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
): ExtraBought | null {
  const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
  if (extra.packs.length === 0) {
    if (extra.materialCost === null) return null
    const each = units.div(unitsPer)
    const used = atCost(each.times(one.plus(extra.waste)), extra.materialCost)
    return {
      extra,
      need: each,
      grounds: [],
      buying: { taken: offerOf([used], zero, zero, table), others: [] },
    }
  }
  const beds = extra.per === 'area' ? job.beds.filter(bed => isFor(extra, job, bed)) : []
  const grounds = beds.flatMap(bed => groundsOf(bed, table))
  const buying = buyForExtra(extra, units, table, grounds)
  return buying && { extra, need: units, grounds, buying }
}

/** What that comes to, in money. */
export function goodsForExtra(...asked: Parameters<typeof boughtForExtra>): Decimal {
  const taken = boughtForExtra(...asked)?.buying.taken
  return taken ? taken.material.plus(taken.delivery).plus(taken.purchaseTax) : zero
}
