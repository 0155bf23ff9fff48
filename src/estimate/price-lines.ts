import type { Job } from './bed.ts'
import { cents, Decimal, middleOf, roundToCent, sumOf, zero } from './decimal.ts'
import { extraQuantity, extrasOf } from './extras.ts'
import type { JobQuantities } from './quantities.ts'
import type { Extra, RateTable } from './rate-table.ts'
import { travelCharge } from './travel.ts'
import { type Q, quantity, unitSystem } from './units.ts'

/**
 * One line of a price: slug names the finish or extra; rate in money per unit of the quantity; amount in money.
 * A 'size' line is what a larger job's rates take off; a 'minimum' line is what is missing to the minimum charge.
 */
export interface PriceLine {
  kind: 'finish' | 'size' | 'extra' | 'travel' | 'minimum'
  slug: string | null
  quantity: Q | null
  rate: string | null
  amount: string
}

/** The lines at the middle of every rate, each rounded to the cent; their total never under the minimum charge. */
export function priceLines(job: Job, quantities: JobQuantities, table: RateTable): PriceLine[] {
  const installed = finishLines(quantities, table)
  const lines = [
    ...installed,
    ...sizeLine(totalOf(installed), quantities, table),
    ...extrasOf(job, table).map(extra => extraLine(extra, job, quantities, table)),
    ...travelLine(job, table),
  ]
  const missing = new Decimal(cents(table.minimumCharge)).minus(totalOf(lines))
  return missing.gt(0) ? [...lines, plainLine('minimum', missing)] : lines
}

export function totalOf(lines: PriceLine[]): Decimal {
  return sumOf(lines.map(line => new Decimal(line.amount)))
}

/** Which rate column a job of this volume in place (yd³|m³) has of its own. */
export function tierOf(volume: Decimal, table: RateTable): number {
  return table.tiers.filter(from => volume.gte(from)).length
}

function finishLines(quantities: JobQuantities, table: RateTable): PriceLine[] {
  const { bulk, volumesPerBulk } = unitSystem(table.units)
  const tier = tierOf(quantities.inPlace.div(volumesPerBulk), table)
  return quantities.finishes.map(({ finish, inPlace }) => {
    const rate = middleOf(finish.rates[tier]!)
    return {
      kind: 'finish',
      slug: finish.slug,
      quantity: quantity(inPlace.div(volumesPerBulk), bulk),
      rate: money(rate),
      amount: cents(inPlace.times(rate).div(volumesPerBulk)),
    }
  })
}

// Bigger never costs less: a job may be priced as the next size up where that comes to less. What is missing to that
// size counts at the cheapest finish of the table, the job's own or not: else a bed of it added would lower the price.
function sizeLine(own: Decimal, quantities: JobQuantities, table: RateTable): PriceLine[] {
  const { volumesPerBulk } = unitSystem(table.units)
  const volume = quantities.inPlace.div(volumesPerBulk)
  const larger = table.tiers.slice(tierOf(volume, table)).map(from => {
    const column = table.tiers.indexOf(from) + 1
    const rates = quantities.finishes.map(({ finish }) => middleOf(finish.rates[column]!))
    const lowest = Decimal.min(...table.finishes.map(finish => middleOf(finish.rates[column]!)))
    const dressed = sumOf(quantities.finishes.map(({ inPlace }, index) => inPlace.times(rates[index]!)))
    const short = volumesPerBulk.times(from).minus(quantities.inPlace)
    const total = dressed.plus(short.times(lowest)).div(volumesPerBulk)
    return roundToCent(total)
  })
  const saved = Decimal.min(own, ...larger).minus(own)
  return saved.lt(0) ? [plainLine('size', saved)] : []
}

function extraLine(extra: Extra, job: Job, quantities: JobQuantities, table: RateTable): PriceLine {
  const { shown, units, unitsPer } = extraQuantity(extra, job, quantities, table)
  const rate = middleOf(extra)
  const amount = cents(units.times(rate).div(unitsPer))
  return { kind: 'extra', slug: extra.slug, quantity: shown, rate: money(rate), amount }
}

function travelLine(job: Job, table: RateTable): PriceLine[] {
  const charge = new Decimal(travelCharge(job.postcode, table) ?? zero)
  return charge.gt(0) ? [plainLine('travel', charge)] : []
}

function plainLine(kind: PriceLine['kind'], amount: Decimal): PriceLine {
  return { kind, slug: null, quantity: null, rate: null, amount: cents(amount) }
}

function money(rate: Decimal): string {
  return rate.toFixed(Math.max(2, rate.decimalPlaces()))
}
