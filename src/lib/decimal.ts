import { Decimal as DecimalJs } from 'decimal.js'

const DIGITS = 40

// A clone, so that no other code's settings of decimal.js can change a price.
export const Decimal = DecimalJs.clone({ precision: DIGITS, rounding: DecimalJs.ROUND_HALF_UP })
export type Decimal = DecimalJs

export const zero = new Decimal(0)
export const one = new Decimal(1)
export const two = new Decimal(2)
export const pi = Decimal.acos(-1)

/** So many figures are kept as they were read; when there are more it begins anew. */
const MOST_READ = 4096
const read = new Map<string, Decimal>()

/** A figure of a rate table, as text: read once, as the same few are asked for with every price. */
export function figureOf(text: string): Decimal {
  return kept(text, () => new Decimal(text))
}

function kept(text: string, work: () => Decimal): Decimal {
  const known = read.get(text)
  if (known) return known
  if (read.size >= MOST_READ) read.clear()
  const value = work()
  read.set(text, value)
  return value
}

/** The amount rounded to the cent, half up (away from zero), as money is written: '12.50'. */
export function cents(amount: Decimal | string | number): string {
  return roundToCent(amount instanceof Decimal ? amount : new Decimal(amount)).toFixed(2)
}

export function roundToCent(amount: Decimal): Decimal {
  return rounded(amount, 2)
}

// Beyond it a quotient's last digits are those of the division: 8.074999…9 is 8.075, and half a cent goes up.
const PLACES = 20

/** Rounded half up (away from zero) to so many places, the noise of divisions before it taken off. */
export function rounded(amount: Decimal, places: number): Decimal {
  if (amount.decimalPlaces() <= places) return amount
  return amount.toDecimalPlaces(PLACES).toDecimalPlaces(places, DecimalJs.ROUND_HALF_UP)
}

/** The sum, added from the smallest up so that the order of the parts can't change the last digit. */
export function sumOf(parts: Decimal[]): Decimal {
  // Adding none changes nothing.
  const some = parts.filter(part => !part.isZero())
  if (some.length === 0) return zero
  if (some.length === 1) return zero.plus(some[0]!)
  return some.sort(ascending).reduce((sum, part) => sum.plus(part))
}

// As comparedTo, which copies what it compares with: by the documented parts of a decimal, its sign, exponent and digits.
function ascending(a: Decimal, b: Decimal): number {
  if (a.s !== b.s) return a.s - b.s
  if (a.e !== b.e) return (a.e - b.e) * a.s
  const [one, other] = [a.d, b.d]
  const shorter = Math.min(one.length, other.length)
  for (let at = 0; at < shorter; at++) if (one[at] !== other[at]) return (one[at]! - other[at]!) * a.s
  return (one.length - other.length) * a.s
}

/** The square root, the same as decimal.js gives to the last digit in a quarter of the time; of none below zero. */
export function squareRoot(value: Decimal): Decimal {
  if (!value.gt(0)) return value.sqrt()
  const [whole, decimals = ''] = value.toFixed().split('.')
  const digits = BigInt(whole + decimals)
  // Half as many digits as this has its root, more than are kept; behind the point there must be an even number.
  const more = Math.max(0, 2 * (DIGITS + 5) - String(digits).length)
  const places = more + ((decimals.length + more) % 2)
  const root = wholeRoot(digits * 10n ** BigInt(places))
  return new Decimal(`${root}e-${(decimals.length + places) / 2}`).toSignificantDigits(DIGITS)
}

// The largest whole number whose square isn't over this one (Newton).
function wholeRoot(square: bigint): bigint {
  let root = BigInt(Math.floor(Math.sqrt(Number(square))))
  for (let last = 0n; root !== last && root !== last + 1n && root !== last - 1n; ) {
    last = root
    root = (last + square / last) >> 1n
  }
  while (root * root > square) root -= 1n
  while ((root + 1n) * (root + 1n) <= square) root += 1n
  return root
}

/** What stands half way between a lower and an upper figure. */
export function middleOf(span: { lower: string; upper: string }): Decimal {
  const { lower, upper } = span
  return kept(`${lower} to ${upper}`, () => new Decimal(lower).plus(upper).div(two))
}
