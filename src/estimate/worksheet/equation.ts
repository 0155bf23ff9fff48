import { type Decimal, one } from '../../lib/decimal.ts'
import type { Factor, Factors } from '../job/factors.ts'
import type { Figures } from './figures.ts'

/**
 * The factors of an amount, in money, and what they come to: '2 yd³ × $90.00 = $180.00'. What one of them was itself
 * rounded from stands before them.
 */
export function equation(factors: Factors, amount: Decimal | string, f: Figures): string {
  const before = [...factors.sum.flat(), ...factors.times, ...factors.over].flatMap(({ from, value }) =>
    from ? [`${equation(from, value, f)}; `] : [],
  )
  const { sum, times, over } = factors
  const [only] = sum
  const alone = sum.length + times.length + over.length === 1 && only!.length === 1
  return alone
    ? `${before.join('')}${f.money(amount)}`
    : `${before.join('')}${wholeOf(factors, f)} = ${f.money(amount)}`
}

function wholeOf({ sum, times, over }: Factors, f: Figures): string {
  const parts = sum.map((product, index) => termOf(product, index === 0, f)).join('')
  const whole = sum.length > 1 && times.length + over.length > 0 ? `(${parts})` : parts
  return [
    whole,
    ...times.map(factor => ` × ${figureOf(factor, f)}`),
    ...over.map(factor => ` ÷ ${figureOf(factor, f)}`),
  ].join('')
}

// What is taken off begins with its sign.
function termOf(product: Factor[], first: boolean, f: Figures): string {
  const [head, ...rest] = product
  const isLess = !first && head!.value.isNegative()
  const shown = isLess ? [{ ...head!, value: head!.value.negated() }, ...rest] : product
  const sign = first ? '' : isLess ? ' − ' : ' + '
  return sign + shown.map(factor => figureOf(factor, f)).join(' × ')
}

function figureOf(factor: Factor, f: Figures): string {
  const { value, is, between } = factor
  switch (is) {
    case undefined:
      return `${f.factor(factor)}${between ? halfway(between, f) : ''}`
    case 'bought':
      return `${f.factor(factor)} to buy`
    case 'material':
      return `${f.factor(factor)} as material`
    case 'drive':
      return `${f.factor(factor)} of driving`
    case 'missing':
      return `${f.factor(factor)} missing to the least`
    case 'days':
      return f.days(value)
    case 'driven':
      return f.far(value)
    case 'overhead':
      return `(1 + ${f.plain(value.minus(one), 4)} for overhead)`
    case 'markup':
      return `(1 + ${f.plain(value.minus(one), 4)})`
    case 'margin':
      return `(1 − ${f.plain(one.minus(value), 4)})`
    default:
      return is satisfies never
  }
}

// Of two rates, the middle is what a firm price is worked out with.
function halfway({ lower, upper }: NonNullable<Factor['between']>, f: Figures): string {
  return lower === upper ? '' : `, halfway between ${f.money(lower)} and ${f.money(upper)}`
}
