import type { PackOf } from '../db/schema/goods.ts'
import { buyTogether } from '../estimate/packs/buy-together.ts'
import { atCost, buyForExtra, type Offer, offerOf, type Part } from '../estimate/packs/offers.ts'
import type { ExtraPack, Pack } from '../estimate/table/pack.ts'
import type { Extra, Finish, RateTable } from '../estimate/table/rate-table.ts'
import { type Decimal, one, sumOf, zero } from '../lib/decimal.ts'
import { isOf, type Wanted } from './wanted.ts'

/**
 * One thing to buy in one way: so many units of a pack, each of so much contents; pack is null where the rates list none, and
 * then it is so much of it as it comes. money is what goods and delivery come to, null where that isn't known.
 */
export interface ToBuy {
  of: PackOf
  slug: string
  thing: Finish | Extra
  pack: Pack | ExtraPack | null
  delivered: boolean
  units: Decimal
  contents: Decimal
  each: Decimal | null
  money: Decimal | null
  upToBreak: boolean
}

/** Everything bought together: total is with tax and what the trips cost, null until every price is known. */
export interface Bought {
  lines: ToBuy[]
  total: Decimal | null
}

/** Buys what all of these jobs still want together, at what costs least with the trips. */
export function buyFor(wanted: Wanted[], table: RateTable): Bought {
  const finishes = boughtFinishes(wanted, table)
  const extras = boughtExtras(wanted, table)
  const parts = [...finishes.parts, ...extras]
  const offers = parts.map(({ offer }) => offer)
  const isKnown = offers.every(offer => offer !== null)
  return {
    lines: parts.flatMap(({ lines }) => lines),
    total: isKnown
      ? sumOf(
          offers.map(({ material, delivery, purchaseTax }) => sumOf([material, delivery, purchaseTax])),
        ).plus(finishes.fetching)
      : null,
  }
}

/** What the same comes to job by job; null until every price is known. */
export function boughtApart(wanted: Wanted[], table: RateTable): Decimal | null {
  const jobs = [...new Set(wanted.map(({ jobId }) => jobId))]
  const totals = jobs.map(
    id =>
      buyFor(
        wanted.filter(({ jobId }) => jobId === id),
        table,
      ).total,
  )
  return totals.every(total => total !== null) ? sumOf(totals) : null
}

interface BoughtThing {
  offer: Offer | null
  lines: ToBuy[]
}

function boughtFinishes(wanted: Wanted[], table: RateTable): { parts: BoughtThing[]; fetching: Decimal } {
  const needs = thingsOf(wanted, 'finish').map(({ thing, wanted }) => ({
    finish: thing as Finish,
    need: sumOf(wanted.map(({ need, left }) => need.times(left))),
  }))
  const { finishes, trips, tripCost } = buyTogether(
    needs.filter(({ need }) => need.gt(0)),
    table,
  )
  const parts = finishes.map(({ finish, need, buying }) => {
    const offer = buying?.taken ?? null
    const lines = offer?.parts[0]?.way
      ? linesOf('finish', finish, offer)
      : [asItComes('finish', finish, need, offer)]
    return { offer, lines }
  })
  return { parts, fetching: trips.times(tripCost) }
}

function boughtExtras(wanted: Wanted[], table: RateTable): BoughtThing[] {
  return thingsOf(wanted, 'extra').flatMap(({ thing, wanted }) => {
    const extra = thing as Extra
    const open = wanted.filter(({ left }) => left.gt(0))
    if (extra.packs.length === 0) return atItsCost(extra, open, table)
    const need = sumOf(open.map(({ need, left }) => need.times(left)))
    const grounds = open.flatMap(one =>
      one.of === 'extra' ? one.grounds.map(ground => ({ ...ground, long: ground.long.times(one.left) })) : [],
    )
    const buying = need.gt(0) ? buyForExtra(extra, need, table, grounds) : null
    return buying ? [{ offer: buying.taken, lines: linesOf('extra', extra, buying.taken) }] : []
  })
}

/** What only a cost is known of, in what that is per. */
function atItsCost(extra: Extra, open: Wanted[], table: RateTable): BoughtThing[] {
  const need = sumOf(open.flatMap(wanted => (wanted.of === 'extra' ? [wanted.each.times(wanted.left)] : [])))
  if (!need.gt(0)) return []
  const offer =
    extra.materialCost === null ? null : offerOf([atCost(need, extra.materialCost)], zero, zero, table)
  return [{ offer, lines: [asItComes('extra', extra, need, offer)] }]
}

function linesOf(of: PackOf, thing: Finish | Extra, { parts }: Offer): ToBuy[] {
  return parts.filter(({ units }) => units.gt(0)).map(part => lineOf(of, thing, part))
}

function lineOf(of: PackOf, thing: Finish | Extra, part: Part): ToBuy {
  return {
    ...{ of, slug: thing.slug, thing },
    pack: part.way!.pack,
    delivered: part.way!.delivered,
    units: part.units,
    contents: part.contents.div(part.units),
    each: part.each,
    money: part.material.plus(part.delivery),
    upToBreak: part.upToBreak,
  }
}

/** What no pack is listed of: a material in yd³|m³, an extra in what its cost is per. */
function asItComes(of: PackOf, thing: Finish | Extra, need: Decimal, offer: Offer | null): ToBuy {
  const money = offer ? offer.material : null
  return {
    ...{ of, slug: thing.slug, thing, pack: null, delivered: false },
    ...{ units: need.toDecimalPlaces(3, UP), contents: one, each: null, money, upToBreak: false },
  }
}

const UP = 0

/** The things wanted, once each in the order of the jobs, with all that is wanted of it. */
export function thingsOf(wanted: Wanted[], of: PackOf): { thing: Finish | Extra; wanted: Wanted[] }[] {
  const slugs = [...new Set(wanted.filter(one => one.of === of).map(({ slug }) => slug))]
  return slugs.map(slug => {
    const all = wanted.filter(one => isOf(one, of, slug))
    return { thing: all[0]!.thing, wanted: all }
  })
}
