import { cents, Decimal, middleOf, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import { sizeReduction, tierOf } from '../job/job-size.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import { adjustmentOf, plainTerms, type Terms } from '../job/terms.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type Q, quantity, unitSystem } from '../units/units.ts'
import { priceByCost, setUpByCost } from './cost-plus.ts'

/**
 * One line of a price: slug names the finish or extra; rate in money per unit of the quantity; amount in money.
 * A 'laying' line is the labor of the finish before it, where the two are shown apart; a 'size' line is what a larger
 * job's rates take off; a 'minimum' line is what is missing to the minimum charge.
 */
export interface PriceLine {
  kind: 'finish' | 'laying' | 'size' | 'set-up' | 'extra' | 'travel' | 'adjustment' | 'minimum'
  slug: string | null
  quantity: Q | null
  rate: string | null
  amount: string
}

/** The lines before tax at the middle of every rate, each rounded to the cent; never under the minimum charge. */
export function priceLines(
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
  terms: Terms = plainTerms,
): PriceLine[] {
  const dressed = dressedLines(quantities, table)
  const lines = [
    ...dressed.flatMap(line => layingApart(line, table)),
    ...sizeLine(dressed, quantities, table),
    ...setUpLine(quantities, table),
    ...extrasOf(job, table).map(extra => extraLine(extra, job, quantities, table)),
    ...travelLine(job, table),
  ]
  const adjusted = [...lines, ...lineUnlessZero('adjustment', adjustmentOf(totalOf(lines), terms))]
  const missing = new Decimal(cents(table.minimumCharge)).minus(totalOf(adjusted))
  return missing.gt(0) ? [...adjusted, plainLine('minimum', missing)] : adjusted
}

export function totalOf(lines: { amount: string }[]): Decimal {
  return sumOf(lines.map(line => new Decimal(line.amount)))
}

function dressedLines(quantities: JobQuantities, table: RateTable): PriceLine[] {
  const tier = tierOf(quantities, table)
  return quantities.finishes.map(finish =>
    finish.finish.pricedBy === 'cost' ? lineByCost(finish, quantities, table) : lineByRate(finish, tier, table),
  )
}

function lineByRate({ finish, inPlace }: FinishQuantities, tier: number, table: RateTable): PriceLine {
  const { bulk, volumesPerBulk } = unitSystem(table.units)
  const rate = middleOf(finish.rates[tier]!)
  return {
    kind: 'finish',
    slug: finish.slug,
    quantity: quantity(inPlace.div(volumesPerBulk), bulk),
    rate: money(rate),
    amount: cents(inPlace.times(rate).div(volumesPerBulk)),
  }
}

function lineByCost(finish: FinishQuantities, quantities: JobQuantities, table: RateTable): PriceLine {
  const { bulk, volumesPerBulk } = unitSystem(table.units)
  return {
    kind: 'finish',
    slug: finish.finish.slug,
    quantity: quantity(finish.inPlace.div(volumesPerBulk), bulk),
    rate: null,
    amount: cents(priceByCost(finish, quantities, table)),
  }
}

function layingApart(line: PriceLine, table: RateTable): PriceLine[] {
  const share = table.finishes.find(({ slug }) => slug === line.slug)?.materialShare ?? null
  if (share === null) return [line]
  const material = roundToCent(new Decimal(line.amount).times(share))
  const laying = new Decimal(line.amount).minus(material)
  return [
    { ...line, rate: null, amount: cents(material) },
    { ...line, kind: 'laying', quantity: null, rate: null, amount: cents(laying) },
  ]
}

function sizeLine(dressed: PriceLine[], quantities: JobQuantities, table: RateTable): PriceLine[] {
  const byRate = quantities.finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const own = totalOf(dressed.filter(line => byRate.some(({ finish }) => finish.slug === line.slug)))
  return lineUnlessZero('size', sizeReduction(own, quantities, table))
}

function setUpLine(quantities: JobQuantities, table: RateTable): PriceLine[] {
  const byCost = quantities.finishes.some(({ finish }) => finish.pricedBy === 'cost')
  return byCost ? lineUnlessZero('set-up', setUpByCost(table)) : []
}

function extraLine(extra: Extra, job: Job, quantities: JobQuantities, table: RateTable): PriceLine {
  const { shown, units, unitsPer } = extraQuantity(extra, job, quantities, table)
  const rate = middleOf(extra)
  const amount = cents(units.times(rate).div(unitsPer))
  return { kind: 'extra', slug: extra.slug, quantity: shown, rate: money(rate), amount }
}

function travelLine(job: Job, table: RateTable): PriceLine[] {
  return lineUnlessZero('travel', new Decimal(travelCharge(job.postcode, table) ?? zero))
}

function lineUnlessZero(kind: PriceLine['kind'], amount: Decimal): PriceLine[] {
  return amount.isZero() ? [] : [plainLine(kind, amount)]
}

function plainLine(kind: PriceLine['kind'], amount: Decimal): PriceLine {
  return { kind, slug: null, quantity: null, rate: null, amount: cents(amount) }
}

function money(rate: Decimal): string {
  return rate.toFixed(Math.max(2, rate.decimalPlaces()))
}
