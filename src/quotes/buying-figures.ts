import { tooHeavy } from '../estimate/packs/loads.ts'
import type { Buying, Offer, Part } from '../estimate/packs/offers.ts'
import { type Ground, isByStrips, rollNeeded } from '../estimate/packs/strips.ts'
import type { ExtraPack } from '../estimate/table/pack.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { figureInWords, moneyInWords } from '../language/money-in-words.ts'
import { cents, type Decimal } from '../lib/decimal.ts'
import type { FigureView } from './figures.ts'
import type { Priced } from './pricing.ts'

/**
 * How everything is bought: the way that is taken, what it comes to, and the next cheapest against it; and all fetching. How much
 * alone for somebody who sees no costs.
 */
export function buyingFigures(priced: Priced, hasCosts: boolean): FigureView[] {
  const figures = pricedFigures(priced)
  return hasCosts ? figures : figures.map(({ note: _cost, ...figure }) => figure)
}

function pricedFigures({ price, rates }: Priced): FigureView[] {
  const { finishes, extras, trips, tripCost } = price.shopping
  const wanted = [
    ...finishes.map(({ finish, buying }) => ({ name: finish.name.en, buying, grounds: [] })),
    ...extras.map(({ extra, buying, grounds }) => ({ name: extra.name.en, buying, grounds })),
  ]
  const figures = wanted.flatMap(({ name, buying, grounds }) =>
    buying?.taken.parts[0]?.way ? figuresOf(name, buying, grounds, rates.body) : [],
  )
  if (rates.body.fetching.together === 'each' || trips.isZero()) return figures
  const cost = moneyInWords(cents(trips.times(tripCost)), rates.body.currency, 'en')
  const unit = trips.eq(1) ? 'trip' : 'trips'
  return [...figures, { label: 'Picking up all of it', value: trips.toString(), unit, note: cost }]
}

function figuresOf(
  name: string,
  { taken, others }: Buying,
  grounds: Ground[],
  { currency, fetching, units }: RateTable,
): FigureView[] {
  const money = (amount: Decimal) => moneyInWords(cents(amount), currency, 'en')
  const each = fetching.together === 'each'
  const [next] = others
  const more = next?.total.minus(taken.total)
  const than = each || !more ? '' : more.isNeg() ? ' less' : ' more'
  const nextComesTo = each ? next?.total : more?.abs()
  const against = next ? `. Next best: ${wayInWords(next.parts[0]!)}, ${money(nextComesTo!)}${than}` : ''
  const rest = taken.parts.length - 1
  return taken.parts.map((part, index) => ({
    label: `${name}: ${wayInWords(part)}`,
    value: part.units.toString(),
    unit: '×',
    note: `${index === 0 ? money(each ? taken.total : goodsOf(taken)) : 'for the rest'}${each && index === 0 ? tripsInWords(taken) : ''}${stripsInWords(part, grounds, units)}${index === rest ? against : ' in all'}`,
  }))
}

function goodsOf({ material, delivery, purchaseTax }: Offer): Decimal {
  return material.plus(delivery).plus(purchaseTax)
}

function wayInWords({ way }: Part): string {
  return `${way!.pack.name.en.toLowerCase()}, ${way!.delivered ? 'delivered' : 'picked up'}`
}

function stripsInWords({ way }: Part, grounds: Ground[], units: RateTable['units']): string {
  const pack = way!.pack as ExtraPack
  if (!isByStrips(pack, grounds)) return ''
  return ` for ${figureInWords(rollNeeded(grounds, pack).toFixed(2), 'en')} ${unitSystem(units).length} in strips`
}

function tripsInWords({ trips }: Offer): string {
  if (trips.isZero()) return ''
  return trips.eq(1) ? ' with one trip' : ` with ${trips} trips`
}

/** Which level loads of what is collected would be too heavy. */
export function loadWarnings({ price, rates }: Priced): string[] {
  const { carriers, units } = rates.body
  const { weight: unit } = unitSystem(units)
  const whole = (weight: Decimal) => figureInWords(weight.toFixed(0), 'en', 0)
  return price.shopping.finishes.flatMap(({ finish, buying }) => {
    const fetched = buying?.taken.parts.some(({ way }) => way !== null && !way.delivered)
    if (!fetched) return []
    return tooHeavy(carriers, finish.densityWet).map(
      ({ carrier, weight, payload }) =>
        `A level load of ${finish.name.en.toLowerCase()} on ${carrier.name.en} weighs about ${whole(weight)} ${unit} wet. The limit is ${whole(payload)} ${unit}. Go by the placard on the door.`,
    )
  })
}
