import { Decimal as DecimalJs } from 'decimal.js'

const DIGITS = 40

// A clone, so that no other code's settings of decimal.js can change a price.
export const Decimal = DecimalJs.clone({ precision: DIGITS, rounding: DecimalJs.ROUND_HALF_UP })
export type Decimal = DecimalJs

export const zero = new Decimal(0)
export const one = new Decimal(1)
export const two = new Decimal(2)
export const pi = Decimal.acos(-1)

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
  if (parts.length === 1) return zero.plus(parts[0]!)
  return [...parts].sort((a, b) => a.comparedTo(b)).reduce((sum, part) => sum.plus(part), zero)
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
  return new Decimal(span.lower).plus(span.upper).div(two)
}
