import { Decimal, one, roundToCent, sumOf } from '../../lib/decimal.ts'
import type { Span } from '../table/rate-table.ts'
import type { UnitName } from '../units/units.ts'

/**
 * One figure that an amount comes about by: value ÷ per, kept apart so that what has no end in decimals is divided last.
 * `is` says what its unit doesn't: what a purchase comes to, the share of a price that is material, what hours or the truck
 * are for, what is put on a cost. `between` are the two figures that it is the middle of; `from` is what it was rounded to the cent from itself.
 */
export interface Factor {
  value: Decimal
  per: Decimal
  unit: UnitName | 'h' | 'money' | 'share' | 'number'
  is?: 'bought' | 'material' | 'drive' | 'missing' | 'days' | 'driven' | 'overhead' | 'markup' | 'margin'
  between?: Span
  from?: Factors
}

/** How an amount comes about: a sum of products, multiplied and divided as a whole, in the end rounded to the cent. */
export interface Factors {
  sum: Factor[][]
  times: Factor[]
  over: Factor[]
}

export function factor(
  value: Decimal | string,
  unit: Factor['unit'],
  rest: Partial<Omit<Factor, 'value' | 'unit'>> = {},
): Factor {
  return { value: typeof value === 'string' ? new Decimal(value) : value, per: one, unit, ...rest }
}

/** A sum of products and nothing more. */
export function sumOfProducts(...sum: Factor[][]): Factors {
  return { sum, times: [], over: [] }
}

/** What factors come to, rounded to the cent: the one place where the amount of a line is worked out. */
export function workedOut({ sum, times, over }: Factors): Decimal {
  let whole = sumOf(sum.map(product))
  if (times.length > 0) whole = whole.times(product(times))
  if (over.length > 0) whole = whole.div(product(over))
  return roundToCent(whole)
}

function product(factors: Factor[]): Decimal {
  const [first = one, ...others] = factors.map(({ value }) => value)
  const times = others.reduce((all, value) => all.times(value), first)
  return factors.reduce((all, { per }) => (per === one ? all : all.div(per)), times)
}
