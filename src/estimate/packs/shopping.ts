import { type Decimal, one, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import { allowanceOf, type JobQuantities } from '../job/quantities.ts'
import type { Extra, Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { type Buying, buyFinish, buyForExtra, type Offer } from './offers.ts'

/** What a job has to buy: of each finish in yd³|m³ to order, of extras with something to buy in their own unit. */
export interface Shopping {
  finishes: { finish: Finish; need: Decimal; buying: Buying | null }[]
  extras: { extra: Extra; need: Decimal; buying: Buying }[]
}

/** Buys for all beds of a job together, finish by finish. */
export function shoppingFor(job: Job, quantities: JobQuantities, table: RateTable): Shopping {
  return {
    finishes: volumesToOrder(quantities, table).map(({ finish, volume }) => ({
      finish,
      need: volume,
      buying: buyFinish(finish, volume, table),
    })),
    extras: extrasOf(job, table).flatMap(extra => {
      if (extra.packs.length === 0) return []
      const { units } = extraQuantity(extra, job, quantities, table)
      const buying = buyForExtra(extra, units, table)
      return buying ? [{ extra, need: units, buying }] : []
    }),
  }
}

/** What to order of each finish, in yd³|m³: the volume in place and the allowance for settling and loss. */
export function volumesToOrder(quantities: JobQuantities, table: RateTable) {
  const { volumesPerBulk } = unitSystem(table.units)
  return quantities.finishes.map(({ finish, inPlace }) => ({
    finish,
    volume: inPlace.times(one.plus(allowanceOf(finish, table))).div(volumesPerBulk),
  }))
}

/** The offers that were taken; null where a finish's cost isn't known. */
export function offersTaken({ finishes, extras }: Shopping): Offer[] | null {
  const all = [...finishes, ...extras].map(({ buying }) => buying?.taken ?? null)
  return all.every(offer => offer !== null) ? all : null
}

/** How many trips fetch what is collected. */
export function tripsOf({ finishes }: Shopping): Decimal {
  return sumOf(finishes.map(({ buying }) => buying?.taken.trips ?? zero))
}
