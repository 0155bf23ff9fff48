import { jobQuantities } from '../estimate/quantities.ts'
import { unitSystem } from '../estimate/units.ts'
import { moneyInWords } from '../lib/money-in-words.ts'
import { cents, Decimal } from '../money.ts'
import type { Priced } from './pricing.ts'

/** One figure with its unit, as the figures partial shows it. */
export interface FigureView {
  label: string
  value: string
  unit?: string
  note?: string
  total?: boolean
}

const UNITS = { ft: 'ft', ft2: 'ft²', ft3: 'ft³', yd3: 'yd³', m: 'm', m2: 'm²', m3: 'm³', bed: 'beds' }

/** Area, volume in place and to order, and the crew hours of every task. */
export function quantityFigures({ job, price, rates }: Priced): FigureView[] {
  const table = rates.body
  const { area, bulk, volumesPerBulk } = unitSystem(table.units)
  const inPlace = new Decimal(price.inPlace.value).div(volumesPerBulk).toFixed(4)
  const nameOf = (things: { slug: string; name: { en: string } }[], slug: string) =>
    things.find(thing => thing.slug === slug)?.name.en ?? slug
  return [
    { label: 'Area', value: fixed(jobQuantities(job, table).area.toFixed(4), 0), unit: UNITS[area] },
    { label: 'Volume in place', value: fixed(inPlace, 2), unit: UNITS[bulk] },
    ...price.toOrder.map(({ finish, volume }) => ({
      label: `${nameOf(table.finishes, finish)} to order`,
      value: fixed(volume.value, 2),
      unit: UNITS[volume.unit],
    })),
    ...price.crewHours.map(({ task, hours }) => ({
      label:
        task === 'spread' ? 'Crew hours, laying' : `Crew hours, ${nameOf(table.extras, task).toLowerCase()}`,
      value: fixed(hours, 2),
      unit: 'h',
    })),
  ]
}

/**
 * What a quote of `total` earns: the price per crew hour, and cost and margin once every cost is known, with
 * the crew hours as the contractor has them. Nothing while the total can't be told.
 */
export function moneyFigures({ price, rates }: Priced, total: string | null, crewHours: string | null) {
  const { currency, costs } = rates.body
  const costsKnown = price.cost !== null && costs.crewHour !== null
  if (total === null) return { money: [], costsKnown }
  const hours = new Decimal(crewHours ?? price.crewHoursTotal)
  const money = (amount: Decimal) => moneyInWords(cents(amount), currency, 'en')
  const figures: FigureView[] = []
  if (hours.gt(0)) figures.push({ label: 'Price per crew hour', value: money(new Decimal(total).div(hours)) })
  if (!costsKnown) return { money: figures, costsKnown }
  const cost = new Decimal(price.cost!).plus(hours.minus(price.crewHoursTotal).times(costs.crewHour!))
  figures.push({ label: 'Cost', value: money(cost), note: 'what is to order, and the crew hours' })
  if (new Decimal(total).gt(0)) {
    const margin = new Decimal(total).minus(cost).div(total).times(100)
    figures.push({ label: 'Margin', value: fixed(margin.toFixed(4), 1), unit: '%' })
  }
  return { money: figures, costsKnown }
}

function fixed(value: string, decimals: number): string {
  return new Intl.NumberFormat('en-US', {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  }).format(value as `${number}`)
}
