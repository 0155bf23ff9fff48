import { tooHeavy } from '../estimate/packs/loads.ts'
import type { Buying, Offer } from '../estimate/packs/offers.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { figureInWords, moneyInWords } from '../language/money-in-words.ts'
import { cents, type Decimal } from '../lib/decimal.ts'
import type { FigureView } from './figures.ts'
import type { Priced } from './pricing.ts'

/** How everything is bought: the way that is taken, what it comes to, and the next cheapest against it. */
export function buyingFigures({ price, rates }: Priced): FigureView[] {
  const { currency } = rates.body
  const { finishes, extras } = price.shopping
  const wanted = [
    ...finishes.map(({ finish, buying }) => ({ name: finish.name.en, buying })),
    ...extras.map(({ extra, buying }) => ({ name: extra.name.en, buying })),
  ]
  return wanted.flatMap(({ name, buying }) => (buying?.taken.way ? [figureOf(name, buying, currency)] : []))
}

function figureOf(name: string, { taken, others }: Buying, currency: string): FigureView {
  const money = (offer: Offer) => moneyInWords(cents(offer.total), currency, 'en')
  const [next] = others
  const against = next ? `. Next best: ${wayInWords(next)}, ${money(next)}` : ''
  return {
    label: `${name}: ${wayInWords(taken)}`,
    value: taken.units.toString(),
    unit: '×',
    note: `${money(taken)}${tripsInWords(taken)}${against}`,
  }
}

function wayInWords({ way }: Offer): string {
  return `${way!.pack.name.en.toLowerCase()}, ${way!.delivered ? 'delivered' : 'picked up'}`
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
    if (!buying?.taken.way || buying.taken.way.delivered) return []
    return tooHeavy(carriers, finish.densityWet).map(
      ({ carrier, weight, payload }) =>
        `A level load of ${finish.name.en.toLowerCase()} on ${carrier.name.en} weighs about ${whole(weight)} ${unit} wet. The limit is ${whole(payload)} ${unit}. Go by the placard on the door.`,
    )
  })
}
