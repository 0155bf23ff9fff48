import { Decimal, middleOf, roundToCent, zero } from '../../lib/decimal.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { type ExtraPack, type Way, waysOf } from '../table/pack.ts'
import type { Extra, Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { tripsFor } from './loads.ts'
import { type Purchase, purchasesFor } from './purchase.ts'

/**
 * A way to buy what a job needs, priced. way is null where only a cost per volume is known. purchaseTax is a cost;
 * fetching is what its trips cost, labor and truck; total is by what ways are compared.
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
  const tripsIn = (way: Way, { contents }: Purchase) =>
    way.delivered ? zero : tripsFor(contents, table.carriers, finish.densityWet)
  const offers = ways.map(way => offerFor(way, need, purchase => tripsIn(way, purchase), table))
  return choose(offers, finish.pinned)
}

/** Every way to buy what an extra needs, in its own unit. Rolls and pieces ride along: they take no trip of their own. */
export function buyForExtra(extra: Extra, need: Decimal, table: RateTable): Buying | null {
  const ways = waysOf<ExtraPack>(extra.packs)
  if (ways.length === 0) return null
  return choose(
    ways.map(way => offerFor(way, need, () => zero, table)),
    extra.pinned,
  )
}

// What is bought in one way at the least total: what a better price saves may cost another trip.
function offerFor(
  way: Way,
  need: Decimal,
  tripsIn: (purchase: Purchase) => Decimal,
  table: RateTable,
): Offer {
  const purchases = purchasesFor(way, need, unitSystem(table.units))
  return leastOf(purchases.map(purchase => offerOf(way, purchase, tripsIn(purchase), table)))
}

function atCost(need: Decimal, cost: string): Purchase {
  const each = new Decimal(cost)
  return { units: need, contents: need, each, material: need.times(each), delivery: zero, upToBreak: false }
}

function offerOf(way: Way | null, purchase: Purchase, trips: Decimal, table: RateTable): Offer {
  const purchaseTax = roundToCent(purchase.material.plus(purchase.delivery).times(purchaseTaxRate(table)))
  const fetching = trips.isZero() ? zero : trips.times(tripCost(table))
  const total = purchase.material.plus(purchase.delivery).plus(purchaseTax).plus(fetching)
  return { ...purchase, way, purchaseTax, trips, fetching, total }
}

/** The share that tax puts on what is bought, where it isn't given back. */
export function purchaseTaxRate({ tax }: RateTable): string {
  return tax === null || tax.purchasesGivenBack ? '0' : tax.onPurchases
}

/** What a trip to the yard costs: its labor hours, at the middle, and the truck. */
export function tripCost(table: RateTable): Decimal {
  const hour = laborHourCost(table) ?? zero
  return middleOf(table.labor.trip).times(hour).plus(table.costs.truckPerTrip)
}

// The first of the list where two cost the same.
function leastOf(offers: Offer[]): Offer {
  return offers.reduce((best, offer) => (offer.total.lt(best.total) ? offer : best))
}

function choose(offers: Offer[], pinned: string | null): Buying {
  const taken = offers.find(({ way }) => way !== null && way.key === pinned) ?? leastOf(offers)
  const others = offers.filter(offer => offer !== taken).sort((a, b) => a.total.comparedTo(b.total))
  return { taken, others }
}
