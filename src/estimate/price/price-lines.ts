import { cents, Decimal, middleOf, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import { type Factor, type Factors, factor, sumOfProducts, workedOut } from '../job/factors.ts'
import { sizeReduction, tierOf } from '../job/job-size.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import { amountAtRate, amountSold } from '../job/sold-factors.ts'
import { adjustmentOf, plainTerms, type Terms } from '../job/terms.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { type Q, quantity, type UnitName } from '../units/units.ts'
import { extraByCost, priceByCost, setUpByCost } from './cost-plus.ts'

/**
 * One line of a price: slug names the finish or extra; rate in money per unit of the quantity; amount in money.
 * A 'laying' or 'extra-labor' line is the labor of the finish or extra before it, where the two are shown apart; a 'size'
 * line is what a larger job's rates take off; a 'minimum' line is what is missing to the minimum charge. factors are what
 * amount came about by.
 */
export interface PriceLine {
  kind:
    | 'finish'
    | 'laying'
    | 'size'
    | 'set-up'
    | 'extra'
    | 'extra-labor'
    | 'travel'
    | 'adjustment'
    | 'minimum'
  slug: string | null
  quantity: Q | null
  rate: string | null
  amount: string
  factors: Factors
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
    ...setUpLine(job, quantities, table),
    ...extrasOf(job, table).flatMap(extra => extraLines(extra, job, quantities, table)),
    ...travelLine(job, table),
  ]
  const adjusted = [...lines, ...plainLine('adjustment', adjustmentOf(totalOf(lines), terms))]
  return [...adjusted, ...minimumLine(totalOf(adjusted), table)]
}

export function totalOf(lines: { amount: string }[]): Decimal {
  return sumOf(lines.map(line => new Decimal(line.amount)))
}

function dressedLines(quantities: JobQuantities, table: RateTable): PriceLine[] {
  const tier = tierOf(quantities, table)
  return quantities.finishes.map(finish =>
    finish.finish.pricedBy === 'cost'
      ? lineByCost(finish, quantities, table)
      : lineByRate(finish, tier, table),
  )
}

function lineByRate({ finish, inPlace }: FinishQuantities, tier: number, table: RateTable): PriceLine {
  const [amount, ...rates] = amountAtRate(inPlace, finish, tier, table)
  // A rate of another unit may have no end in this one.
  const rate = rates.length === 1 ? money(rates[0]!.value) : null
  return {
    kind: 'finish',
    slug: finish.slug,
    quantity: quantityOf(amount),
    rate,
    ...worth(sumOfProducts([amount, ...rates])),
  }
}

function lineByCost(finish: FinishQuantities, quantities: JobQuantities, table: RateTable): PriceLine {
  return {
    kind: 'finish',
    slug: finish.finish.slug,
    quantity: quantityOf(amountSold(finish.inPlace, finish.finish, table)),
    rate: null,
    ...worth(priceByCost(finish, quantities, table)),
  }
}

function layingApart(line: PriceLine, table: RateTable): PriceLine[] {
  const share = table.finishes.find(({ slug }) => slug === line.slug)?.materialShare ?? null
  return laborApart(line, 'laying', share)
}

function laborApart(line: PriceLine, kind: 'laying' | 'extra-labor', share: string | null): PriceLine[] {
  if (share === null) return [line]
  const whole = factor(line.amount, 'money')
  const material = worth(
    sumOfProducts([{ ...whole, from: line.factors }, factor(share, 'share', { is: 'material' })]),
  )
  const less = factor(new Decimal(material.amount).negated(), 'money')
  return [
    { ...line, rate: null, ...material },
    { ...line, kind, quantity: null, rate: null, ...worth(sumOfProducts([whole], [less])) },
  ]
}

function sizeLine(dressed: PriceLine[], quantities: JobQuantities, table: RateTable): PriceLine[] {
  const byRate = quantities.finishes.filter(({ finish }) => finish.pricedBy === 'rate')
  const own = totalOf(dressed.filter(line => byRate.some(({ finish }) => finish.slug === line.slug)))
  return plainLine('size', sizeReduction(own, quantities, table))
}

function setUpLine(job: Job, quantities: JobQuantities, table: RateTable): PriceLine[] {
  const byCost = quantities.finishes.some(({ finish }) => finish.pricedBy === 'cost')
  return byCost ? plainLine('set-up', setUpByCost(job, quantities, table)) : []
}

function extraLines(extra: Extra, job: Job, quantities: JobQuantities, table: RateTable): PriceLine[] {
  const { shown, units, unitsPer } = extraQuantity(extra, job, quantities, table)
  if (extra.pricedBy === 'cost') {
    const priced = worth(extraByCost(extra, job, quantities, table))
    const line: PriceLine = { kind: 'extra', slug: extra.slug, quantity: shown, rate: null, ...priced }
    return laborApart(line, 'extra-labor', extra.materialShare)
  }
  const rate = factor(middleOf(extra), 'money', { between: { lower: extra.lower, upper: extra.upper } })
  const amount = factor(units, shown?.unit ?? 'number', { per: unitsPer })
  const line: PriceLine = {
    kind: 'extra',
    slug: extra.slug,
    quantity: shown,
    rate: money(rate.value),
    ...worth(sumOfProducts([amount, rate])),
  }
  return laborApart(line, 'extra-labor', extra.materialShare)
}

function travelLine(job: Job, table: RateTable): PriceLine[] {
  const charge = factor(travelCharge(job.postcode, table) ?? zero, 'money')
  return plainLine('travel', sumOfProducts([charge]))
}

function minimumLine(lines: Decimal, table: RateTable): PriceLine[] {
  const missing = sumOfProducts(
    [factor(cents(table.minimumCharge), 'money')],
    [factor(lines.negated(), 'money')],
  )
  return workedOut(missing).gt(0) ? plainLine('minimum', missing) : []
}

// Nothing where it comes to nothing.
function plainLine(kind: PriceLine['kind'], factors: Factors | null): PriceLine[] {
  if (factors === null || workedOut(factors).isZero()) return []
  return [{ kind, slug: null, quantity: null, rate: null, ...worth(factors) }]
}

function worth(factors: Factors): Pick<PriceLine, 'amount' | 'factors'> {
  return { amount: cents(workedOut(factors)), factors }
}

function quantityOf({ value, per, unit }: Factor): Q {
  return quantity(value.div(per), unit as UnitName)
}

function money(rate: Decimal): string {
  return rate.toFixed(Math.max(2, rate.decimalPlaces()))
}
