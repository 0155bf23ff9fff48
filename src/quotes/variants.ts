import type { Insertable } from 'kysely'
import { json } from '../db/json.ts'
import type { QuoteVariantTable } from '../db/schema/quotes.ts'
import { workOutPrice } from '../estimate/price/firm-price.ts'
import type { PriceLine } from '../estimate/price/price-lines.ts'
import {
  type Choices,
  combinations,
  type Taken,
  takenInDigits,
  withTaken,
} from '../estimate/understood/choices.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'
import { isAdjustable, type LinesWanted } from './compose-lines.ts'
import { type ComposedQuote, composeQuote } from './compose-quote.ts'
import type { Priced } from './pricing.ts'

/** What the contractor made of a price; laborHours null as worked out. */
export type Made = LinesWanted & { laborHours: string | null }

/** A quote with one combination of its choices, as one job priced as a whole. */
export interface Variant {
  taken: Taken
  priced: Priced
  wanted: Made
  composed: ComposedQuote
}

/**
 * Prices a quote with what is taken of its choices. What the contractor changed of a line, and of the labor hours, is
 * changed by as much. Null where it can't be together, or comes to less than nothing.
 */
export function variantOf(base: Priced, made: Made, choices: Choices, taken: Taken): Variant | null {
  const { rates, terms } = base
  const { told, recalled } = withTaken(base, choices, taken, rates.body)
  if (!recalled.ok) return null
  const { job } = recalled
  const price = workOutPrice(job, rates.body, terms)
  const priced: Priced = { ...base, told, job, understood: recordJob(job, rates.body.units), price }
  const instead = choices.picks.flatMap(({ finish }, index) =>
    finish !== null && taken.picks[index] ? [finish] : [],
  )
  const wanted: Made = {
    amounts: made.amounts && carriedOver(base.price.lines, made.amounts, price.lines, instead),
    added: made.added,
    laborHours: made.laborHours && hoursOver(base, made.laborHours, price.laborHoursTotal),
  }
  const composed = composeQuote(priced, wanted)
  return Number(composed.total) < 0 ? null : { taken, priced, wanted, composed }
}

/** Every combination that is offered, that of nothing first; null where one of them can't be. */
export function everyVariant(base: Priced, made: Made, choices: Choices): Variant[] | null {
  const all = combinations(choices).map(taken => variantOf(base, made, choices, taken))
  return all.every(variant => variant !== null) ? all : null
}

/** A variant as it is stored. */
export function variantRow({
  taken,
  priced,
  wanted,
  composed,
}: Variant): Omit<Insertable<QuoteVariantTable>, 'quote_id'> {
  const { price } = priced
  return {
    picks: takenInDigits(taken),
    job: json(priced.told),
    understood: json(priced.understood),
    tax: composed.tax && json(composed.tax),
    total: composed.total,
    labor_hours: wanted.laborHours ?? price.laborHoursTotal,
    labor_hours_worked_out: price.laborHoursTotal,
    lines: json(composed.lines),
  }
}

// By the same line; where its finish makes way for another, by that one's.
function carriedOver(
  from: PriceLine[],
  amounts: { amount: string; reason: string }[],
  to: PriceLine[],
  instead: string[],
): NonNullable<LinesWanted['amounts']> {
  const lines = to.filter(isAdjustable)
  const changes = from.filter(isAdjustable).flatMap((line, index) => {
    const by = new Decimal(amounts[index]!.amount).minus(line.amount)
    if (by.isZero()) return []
    const same = lines.find(one => one.kind === line.kind && one.slug === line.slug)
    const other = lines.find(one => one.kind === line.kind && instead.includes(one.slug ?? ''))
    return [{ line: same ?? other, by, reason: amounts[index]!.reason }]
  })
  return lines.map(line => {
    const own = changes.filter(change => change.line === line)
    const by = sumOf(own.map(change => change.by))
    return {
      amount: cents(by.plus(line.amount)),
      reason: by.isZero() ? '' : own.map(({ reason }) => reason).join('; '),
    }
  })
}

function hoursOver(base: Priced, made: string, workedOut: string): string {
  const hours = new Decimal(workedOut).plus(made).minus(base.price.laborHoursTotal)
  return hours.gt(0) ? cents(hours) : workedOut
}
