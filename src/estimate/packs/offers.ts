import { Decimal, figureOf, one, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import { type ExtraPack, type Way, waysOf } from '../table/pack.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { purchaseTaxRate } from './money.ts'
import { type Purchase, purchasesFor } from './purchase.ts'
import { type Ground, isByStrips, rollNeeded } from './strips.ts'

/** What is bought in one way. way is null where only the cost of each is known. */
export interface Part extends Purchase {
  way: Way | null
}

/**
 * A way to buy what a job needs, priced: of several parts where loose material and packs are mixed. contents in yd³|m³ (of
 * rolls ft²|m², of pieces ft|m); purchaseTax is a cost; trips are those that it adds to what else is fetched, and fetching
 * what these cost, labor and truck; total is by what ways are compared.
 */
export interface Offer {
  parts: Part[]
  contents: Decimal
  material: Decimal
  delivery: Decimal
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

/** Parts bought together, with the trips they add, each at so much. */
export function offerOf(parts: Part[], trips: Decimal, tripCost: Decimal, table: RateTable): Offer {
  const rate = purchaseTaxRate(table)
  const purchaseTax =
    rate === '0'
      ? zero
      : sumOf(parts.map(({ material, delivery }) => roundToCent(material.plus(delivery).times(rate))))
  const [material, delivery] = [
    sumOf(parts.map(part => part.material)),
    sumOf(parts.map(part => part.delivery)),
  ]
  const contents = sumOf(parts.map(part => part.contents))
  const fetching = trips.isZero() ? zero : trips.times(tripCost)
  const total = sumOf([material, delivery, purchaseTax, fetching])
  return { parts, contents, material, delivery, purchaseTax, trips, fetching, total }
}

/** What so much costs of which only the cost of each is known; contents where that isn't the same. */
export function atCost(need: Decimal, cost: string, contents = need): Part {
  const each = figureOf(cost)
  return {
    way: null,
    units: need,
    contents,
    each,
    material: need.times(each),
    delivery: zero,
    upToBreak: false,
  }
}

/**
 * Every way to buy what an extra needs, in its own unit, and on what ground where rolls may be laid there in strips. Rolls
 * and pieces ride along: they take no trip of their own.
 */
export function buyForExtra(
  extra: Extra,
  need: Decimal,
  table: RateTable,
  grounds: Ground[] = [],
): Buying | null {
  const ways = waysOf<ExtraPack>(extra.packs)
  if (ways.length === 0) return null
  const offers = ways.map(way => {
    const needed = neededIn(way.pack, need, extra, grounds)
    const purchases = purchasesFor(way, needed, unitSystem(table.units))
    return leastOf(purchases.map(purchase => offerOf([{ ...purchase, way }], zero, zero, table)))
  })
  const taken = offers.find(({ parts }) => parts[0]!.way!.key === extra.pinned) ?? leastOf(offers)
  return { taken, others: cheapestFirst(offers.filter(offer => offer !== taken)) }
}

/**
 * How much of a pack's contents an extra needs, with what is wasted. A roll's contents are the area that it covers with its
 * overlap, so strips are told as such an area.
 */
export function neededIn(
  pack: ExtraPack,
  need: Decimal,
  { waste }: Pick<Extra, 'waste'>,
  grounds: Ground[] = [],
): Decimal {
  const used = isByStrips(pack, grounds)
    ? rollNeeded(grounds, pack).times(new Decimal(pack.width).minus(pack.overlap))
    : need
  return used.times(one.plus(waste))
}

/** The first of the list where two cost the same. */
export function leastOf(offers: Offer[]): Offer {
  return offers.reduce((best, offer) => (offer.total.lt(best.total) ? offer : best))
}

export function cheapestFirst(offers: Offer[]): Offer[] {
  return offers.sort((a, b) => a.total.comparedTo(b.total))
}
