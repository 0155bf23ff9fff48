import { type Decimal, figureOf, one, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extrasOf } from '../job/extras.ts'
import { allowanceOf, type JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { type Bought, buyTogether, type Need } from './buy-together.ts'
import { boughtForExtra, type ExtraBought } from './extra-shopping.ts'
import type { Offer } from './offers.ts'

/**
 * What a job has to buy: of each finish in yd³|m³ to order, of extras with something to buy in their own unit.
 */
export interface Shopping extends Bought {
  extras: ExtraBought[]
}

/** Buys for all beds of a job together. */
export function shoppingFor(job: Job, quantities: JobQuantities, table: RateTable): Shopping {
  return {
    ...boughtFor(quantities, table),
    extras: extrasOf(job, table).flatMap(extra => boughtForExtra(extra, job, quantities, table) ?? []),
  }
}

interface Kept {
  table: RateTable
  all?: Bought
  byCost?: Bought
}

// Both a price and what is bought for it ask for them.
const known = new WeakMap<JobQuantities, Kept>()

function keptFor(quantities: JobQuantities, table: RateTable): Kept {
  const last = known.get(quantities)
  if (last?.table === table) return last
  const kept = { table }
  known.set(quantities, kept)
  return kept
}

function boughtFor(quantities: JobQuantities, table: RateTable): Bought {
  const kept = keptFor(quantities, table)
  kept.all ??= buyTogether(volumesToOrder(quantities, table), table)
  return kept.all
}

/**
 * What buying a finish that is priced by its cost and its part of the fetching come to in its price, in money: as it is
 * bought with all others of its kind alone, so that more of a finish with rates of its own never makes it cheaper.
 */
export function boughtToPrice(slug: string, quantities: JobQuantities, table: RateTable): Decimal {
  const kept = keptFor(quantities, table)
  kept.byCost ??= quantities.finishes.every(isByCost)
    ? boughtFor(quantities, table)
    : buyTogether(volumesToOrder(quantities, table).filter(isByCost), table)
  const { buying, fetching } = kept.byCost.finishes.find(({ finish }) => finish.slug === slug)!
  if (buying === null) return zero
  const { material, delivery, purchaseTax } = buying.taken
  return sumOf([material, delivery, purchaseTax, fetching])
}

function isByCost({ finish }: { finish: { pricedBy: string } }): boolean {
  return finish.pricedBy === 'cost'
}

/** What to order of each finish, in yd³|m³: the volume in place and the allowance for settling and loss. */
export function volumesToOrder(quantities: JobQuantities, table: RateTable): Need[] {
  const { volumesPerBulk } = unitSystem(table.units)
  return quantities.finishes.map(({ finish, inPlace }) => ({
    finish,
    need: inPlace.times(one.plus(figureOf(allowanceOf(finish, table)))).div(volumesPerBulk),
  }))
}

/** The offers that were taken; null where a finish's cost isn't known. */
export function offersTaken({ finishes, extras }: Shopping): Offer[] | null {
  const all = [...finishes, ...extras].map(({ buying }) => buying?.taken ?? null)
  return all.every(offer => offer !== null) ? all : null
}
