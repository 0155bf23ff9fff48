import { Decimal, middleOf, roundToCent, zero } from '../decimal.ts'
import { crewHourCost } from '../labour/crew-hour.ts'
import type { Extra, Finish, RateTable } from '../rate-table.ts'
import { unitSystem } from '../units.ts'
import { tripsFor } from './loads.ts'
import { type ExtraPack, type Way, waysOf } from './pack.ts'
import { buy, type Purchase } from './purchase.ts'

/**
 * A way to buy what a job needs, priced. way is null where only a cost per volume is known. purchaseTax is a cost;
 * fetching is what its trips cost, labour and truck; total is by what ways are compared.
 */
export interface Offer extends Purchase {
  way: Way | null
  purchaseTax: Decimal
  trips: Decimal
  fetching: Decimal
  total: Decimal
}

/** The offer taken, and the others from the cheapest up. */
export interface Buying {
  taken: Offer
  others: Offer[]
}

/** Every way to buy so much of a finish, in yd³|m³ to order; null while nothing is known of its cost. */
export function buyFinish(finish: Finish, need: Decimal, table: RateTable): Buying | null {
  const ways = waysOf(finish.packs)
  if (ways.length === 0)
    return finish.materialCost === null
      ? null
      : { taken: offerOf(null, atCost(need, finish.materialCost), zero, table), others: [] }
  const offers = ways.map(way => {
    const purchase = buy(way, need, unitSystem(table.units))
    const trips = way.delivered ? zero : tripsFor(purchase.contents, table.carriers, finish.densityWet)
    return offerOf(way, purchase, trips, table)
  })
  return choose(offers, finish.pinned)
}

/** Every way to buy what an extra needs, in its own unit. Rolls and pieces ride along: they take no trip of their own. */
export function buyForExtra(extra: Extra, need: Decimal, table: RateTable): Buying | null {
  const ways = waysOf<ExtraPack>(extra.packs)
  if (ways.length === 0) return null
  const system = unitSystem(table.units)
  return choose(
    ways.map(way => offerOf(way, buy(way, need, system), zero, table)),
    extra.pinned,
  )
}

function atCost(need: Decimal, cost: string): Purchase {
  const each = new Decimal(cost)
  return { units: need, contents: need, each, material: need.times(each), delivery: zero, upToBreak: false }
}

function offerOf(way: Way | null, purchase: Purchase, trips: Decimal, table: RateTable): Offer {
  const purchaseTax = roundToCent(purchase.material.plus(purchase.delivery).times(purchaseTaxRate(table)))
  const fetching = trips.times(tripCost(table))
  const total = purchase.material.plus(purchase.delivery).plus(purchaseTax).plus(fetching)
  return { ...purchase, way, purchaseTax, trips, fetching, total }
}

/** The share that tax puts on what is bought, where it isn't given back. */
export function purchaseTaxRate({ tax }: RateTable): string {
  return tax === null || tax.purchasesGivenBack ? '0' : tax.onPurchases
}

/** What a trip to the yard costs: its crew hours, at the middle, and the truck. */
export function tripCost(table: RateTable): Decimal {
  const hour = crewHourCost(table) ?? zero
  return middleOf(table.labour.trip).times(hour).plus(table.costs.truckPerTrip)
}

// The first of the list where two cost the same.
function choose(offers: Offer[], pinned: string | null): Buying {
  const cheapest = offers.reduce((best, offer) => (offer.total.lt(best.total) ? offer : best))
  const taken = offers.find(({ way }) => way !== null && way.key === pinned) ?? cheapest
  const others = offers.filter(offer => offer !== taken).sort((a, b) => a.total.comparedTo(b.total))
  return { taken, others }
}
