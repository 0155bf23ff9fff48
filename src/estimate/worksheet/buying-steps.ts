import { Decimal, one } from '../../lib/decimal.ts'
import { allowanceOf, type FinishQuantities } from '../job/quantities.ts'
import { tooHeavy, tripVolume } from '../packs/loads.ts'
import type { Offer } from '../packs/offers.ts'
import type { Shopping } from '../packs/shopping.ts'
import { contentsOf, type ExtraPack, type Pack } from '../table/pack.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'
import { soldSteps } from './sold-steps.ts'

type FinishToBuy = Shopping['finishes'][number]

/** What is to be ordered of a finish, and every way to buy it with what it comes to; the one taken comes first. */
export function finishBuyingSteps(
  { finish, buying }: FinishToBuy,
  { inPlace }: FinishQuantities,
  table: RateTable,
  f: Figures,
): string[] {
  const allowance = allowanceOf(finish, table)
  const volume = inPlace.times(one.plus(allowance))
  const more =
    Number(allowance) === 0 ? '' : ` + ${f.share(allowance)} for settling and waste = ${f.volume(volume)}`
  const sold = soldSteps(volume, finish, table, f)
  const order = `To order: ${f.volume(inPlace)}${more}${sold === '' ? '' : `;${sold}`}`
  if (buying === null) return [order, 'What it costs to buy isn’t known.']
  const ways = [buying.taken, ...buying.others].map((offer, index) => {
    const steps = offerSteps(offer, volume, finish, table, f)
    return buying.others.length === 0 ? steps : `${index === 0 ? takenAs(finish) : 'Compared with'}: ${steps}`
  })
  return [order, ...ways, ...heavyLoads(finish, buying.taken, table, f)]
}

/** The same for what an extra needs. */
export function extraBuyingSteps(
  { need, buying }: Shopping['extras'][number],
  table: RateTable,
  f: Figures,
): string[] {
  return [buying.taken, ...buying.others].map((offer, index) => {
    const { pack } = offer.way!
    const each = contentsOf(pack, unitSystem(table.units))
    const sized = pack.kind === 'roll' ? f.area : f.length
    const units = `${sized(need)} ÷ ${sized(each)} = ${f.plain(need.div(each))}`
    return `${index === 0 ? '' : 'Compared with: '}${units}, so ${unitsInWords(offer, f)}; ${goods(offer, f)}`
  })
}

function takenAs({ pinned }: Finish): string {
  return pinned === null ? 'Chosen as the cheapest' : 'Chosen by you'
}

function offerSteps(offer: Offer, volume: Decimal, finish: Finish, table: RateTable, f: Figures): string {
  if (offer.way === null)
    return `${f.bulk(offer.units)} × ${f.money(offer.each)} = ${f.money(offer.material)}`
  const { pack, delivered } = offer.way
  const parts = [
    `${packSteps(pack as Pack, volume, table, f)}, so ${unitsInWords(offer, f)}`,
    goods(offer, f),
    ...(delivered ? [] : [tripSteps(offer, finish, table, f)]),
  ]
  return `${parts.join('; ')}; ${f.money(offer.total.toDecimalPlaces(2))} in all`
}

function packSteps(pack: Pack, volume: Decimal, table: RateTable, f: Figures): string {
  const system = unitSystem(table.units)
  const bulk = volume.div(system.volumesPerBulk)
  const units = f.plain(bulk.div(contentsOf(pack, system)))
  switch (pack.kind) {
    case 'bag':
      return `${f.volume(volume)} ÷ ${f.volume(new Decimal(pack.holds))} a bag = ${units}`
    case 'bale': {
      const each = contentsOf(pack, system).times(system.volumesPerBulk)
      const bale = `${f.area(new Decimal(pack.covers))} at ${f.depth(pack.deep)}`
      return `${f.volume(volume)} ÷ ${f.volume(each)} a bale (${bale}) = ${units}`
    }
    case 'bulk':
      return f.bulk(bulk)
    case 'weighed':
      return `${f.bulk(bulk)} × ${f.weight(pack.density)} ÷ ${f.weight(system.weightPerTon)} = ${units}`
    default:
      return pack satisfies never
  }
}

function unitsInWords({ units, way, upToBreak }: Offer, f: Figures): string {
  const { pack, delivered } = way!
  const least = Number(pack.least) > 0 && units.eq(pack.least) ? ', the smallest order' : ''
  const why = upToBreak ? ', up to where it gets cheaper' : least
  return `${f.plain(units)} × ${pack.name.en}${why}, ${delivered ? 'delivered' : 'picked up'}`
}

function goods({ units, each, material, delivery, purchaseTax, way }: Offer, f: Figures): string {
  const pack: Pack | ExtraPack = way!.pack
  const stakes =
    pack.kind === 'piece' && Number(pack.stakes) > 0
      ? ` with ${f.plain(pack.stakes)} stakes each at ${f.money(pack.stakeEach)}`
      : ''
  const brought = delivery.gt(0) ? ` + ${f.money(delivery)} delivery` : ''
  const taxed = purchaseTax.gt(0) ? ` + ${f.money(purchaseTax)} tax` : ''
  return `${f.plain(units)} × ${f.money(each)}${stakes} = ${f.money(material)}${brought}${taxed}`
}

function tripSteps(
  { trips, contents, fetching }: Offer,
  finish: Finish,
  table: RateTable,
  f: Figures,
): string {
  const each = tripVolume(table.carriers, finish.densityWet)
  const often = each
    ? `${f.bulk(contents)} ÷ ${f.bulk(each)} a trip = ${f.plain(contents.div(each))}, so ${f.trips(trips)}`
    : f.trips(trips)
  return `${often}, ${f.money(fetching.toDecimalPlaces(2))}`
}

function heavyLoads(finish: Finish, { way }: Offer, table: RateTable, f: Figures): string[] {
  if (way === null || way.delivered) return []
  return tooHeavy(table.carriers, finish.densityWet).map(
    ({ carrier, weight, payload }) =>
      `Careful: a level load on ${carrier.name.en} weighs about ${f.weight(weight)} wet. The limit is ${f.weight(payload)}. Go by the placard on the door.`,
  )
}
