import { Decimal, one, zero } from '../../lib/decimal.ts'
import { allowanceOf, type FinishQuantities } from '../job/quantities.ts'
import { amountSold } from '../job/sold-factors.ts'
import type { FinishBought } from '../packs/buy-together.ts'
import { tooHeavy, tripVolume } from '../packs/loads.ts'
import { neededIn, type Offer, type Part } from '../packs/offers.ts'
import type { Shopping } from '../packs/shopping.ts'
import { isByStrips } from '../packs/strips.ts'
import { contentsOf, type ExtraPack, type Pack } from '../table/pack.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { costedAs, isRatedAsSold } from '../table/sold.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'
import { soldSteps } from './sold-steps.ts'
import { stripSteps } from './strip-steps.ts'

/** What is to be ordered of a finish, and every way to buy it with what it comes to; the one taken comes first. */
export function finishBuyingSteps(
  { finish, buying }: FinishBought,
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
  const { taken, others } = buying
  const ways = [taken, ...others].map((offer, index) => {
    const steps = `${offerSteps(offer, volume, finish, table, f)}${comesTo(offer, taken, finish, table, f)}`
    return others.length === 0 ? steps : `${index === 0 ? takenAs(finish) : 'Compared with'}: ${steps}`
  })
  return [order, ...ways, ...heavyLoads(finish, taken, table, f)]
}

/** The same for what an extra needs. */
export function extraBuyingSteps(
  { extra, need, grounds, buying }: Shopping['extras'][number],
  table: RateTable,
  f: Figures,
): string[] {
  if (extra.packs.length === 0) return [materialSteps({ extra, need }, buying.taken, f)]
  return [buying.taken, ...buying.others].map((offer, index) => {
    const [part] = offer.parts as [Part]
    const pack = part.way!.pack as ExtraPack
    const units = isByStrips(pack, grounds)
      ? stripSteps(grounds, pack, wasteStep(extra, f), extra.waste, f)
      : unitSteps({ extra, need }, pack, table, f)
    return `${index === 0 ? '' : 'Compared with: '}${units}, so ${unitsInWords(part, f)}; ${goods(part, offer.purchaseTax, f)}`
  })
}

type NeedOf = Pick<Shopping['extras'][number], 'extra' | 'need'>

function wasteStep({ waste }: NeedOf['extra'], f: Figures): string {
  return Number(waste) === 0 ? '' : ` × (1 + ${f.plain(waste, 4)} for waste)`
}

function materialSteps({ extra, need }: NeedOf, { parts, purchaseTax }: Offer, f: Figures): string {
  const waste = wasteStep(extra, f)
  const [{ units, each, material }] = parts as [Part]
  const taxed = purchaseTax.gt(0) ? ` + ${f.money(purchaseTax)} tax` : ''
  const amount = waste === '' ? '' : `${f.plain(need)}${waste} = ${f.plain(units)}; `
  return `${amount}${f.plain(units)} × ${f.money(each)} = ${f.money(material)}${taxed}`
}

function unitSteps({ extra, need }: NeedOf, pack: ExtraPack, table: RateTable, f: Figures): string {
  const each = contentsOf(pack, unitSystem(table.units))
  const sized = pack.kind === 'roll' ? f.area : f.length
  const units = neededIn(pack, need, extra).div(each)
  return `${sized(need)}${wasteStep(extra, f)} ÷ ${sized(each)} = ${f.plain(units)}`
}

function takenAs({ pinned }: Finish): string {
  return pinned === null ? 'Chosen as the cheapest' : 'Chosen by you'
}

function offerSteps(
  { parts, purchaseTax }: Offer,
  volume: Decimal,
  finish: Finish,
  table: RateTable,
  f: Figures,
): string {
  const [first, rest] = parts as [Part, Part?]
  if (first.way === null)
    return `${costedAmount(first, volume, finish, table, f)} × ${f.money(first.each)} = ${f.money(first.material)}`
  const { pack } = first.way
  if (rest === undefined)
    return `${packSteps(pack as Pack, volume, table, f)}, so ${unitsInWords(first, f)}; ${goods(first, purchaseTax, f)}`
  const { volumesPerBulk } = unitSystem(table.units)
  const left = volume.minus(first.contents.times(volumesPerBulk))
  return [
    `${f.bulk(volume.div(volumesPerBulk))}, of which ${f.bulk(first.contents)} as ${unitsInWords(first, f)}`,
    goods(first, zero, f),
    `the rest ${packSteps(rest.way!.pack as Pack, left, table, f)}, so ${unitsInWords(rest, f)}`,
    goods(rest, purchaseTax, f),
  ].join('; ')
}

function costedAmount(
  { units }: Part,
  volume: Decimal,
  finish: Finish,
  table: RateTable,
  f: Figures,
): string {
  return isRatedAsSold(costedAs(finish)) ? f.factor(amountSold(volume, finish, table)) : f.bulk(units)
}

// Where each finish is fetched by itself, its trips and its sum; else what another way would add to the whole job.
function comesTo(offer: Offer, taken: Offer, finish: Finish, table: RateTable, f: Figures): string {
  if (offer.parts[0]!.way === null) return ''
  if (table.fetching.together === 'each') {
    const delivered = offer.parts.every(({ way }) => way!.delivered)
    const fetched = delivered ? '' : `; ${tripSteps(offer, finish, table, f)}`
    return `${fetched}; ${f.money(offer.total.toDecimalPlaces(2))} in all`
  }
  if (offer === taken) return ''
  const more = offer.total.minus(taken.total).toDecimalPlaces(2)
  const trips = offer.trips.minus(taken.trips)
  const way = trips.isZero() ? '' : `, with ${f.trips(trips.abs())} ${trips.gt(0) ? 'more' : 'fewer'}`
  return `; ${f.money(more.abs())} ${more.isNeg() ? 'less' : 'more'} in all${way}`
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

function unitsInWords({ units, way, upToBreak }: Part, f: Figures): string {
  const { pack, delivered } = way!
  const least = Number(pack.least) > 0 && units.eq(pack.least) ? ', the smallest order' : ''
  const why = upToBreak ? ', up to where it gets cheaper' : least
  return `${f.plain(units)} × ${pack.name.en}${why}, ${delivered ? 'delivered' : 'picked up'}`
}

function goods({ units, each, material, delivery, way }: Part, purchaseTax: Decimal, f: Figures): string {
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

function heavyLoads(finish: Finish, { parts }: Offer, table: RateTable, f: Figures): string[] {
  if (parts.every(({ way }) => way === null || way.delivered)) return []
  return tooHeavy(table.carriers, finish.densityWet).map(
    ({ carrier, weight, payload }) =>
      `Careful: a level load on ${carrier.name.en} weighs about ${f.weight(weight)} wet. The limit is ${f.weight(payload)}. Go by the placard on the door.`,
  )
}
