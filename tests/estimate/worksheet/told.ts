import fc from 'fast-check'
import { evaluate } from 'mathjs'
import type { Factor, Factors } from '../../../src/estimate/job/factors.ts'
import { plainTerms, type Terms } from '../../../src/estimate/job/terms.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import type { Decimal } from '../../../src/lib/decimal.ts'
import { anyCostTable, anyWay, jobAway } from '../cost-priced.ts'
import { anyBeds } from '../generated.ts'
import { taxOf } from '../taxes.ts'

type Fraction = [over: bigint, under: bigint]

function fractionOf(value: Decimal): Fraction {
  const [whole, decimals = ''] = value.toFixed().split('.')
  return [BigInt(whole + decimals), 10n ** BigInt(decimals.length)]
}

const product = (factors: Factor[]): Fraction =>
  factors.reduce<Fraction>(
    ([over, under], { value, per }) => {
      const [times, timesUnder] = fractionOf(value)
      const [by, byUnder] = fractionOf(per)
      return [over * times * byUnder, under * timesUnder * by]
    },
    [1n, 1n],
  )

/** What factors come to in cents, by whole numbers alone, half a cent away from zero; noise of 20 places is none. */
export function centsOf({ sum, times, over }: Factors): bigint {
  const [top, bottom] = sum
    .map(product)
    .reduce<Fraction>(([a, b], [c, d]) => [a * d + c * b, b * d], [0n, 1n])
  const [up, down] = product(times)
  const [by, byUnder] = product(over)
  const [n, d] = [top * up * byUnder, bottom * down * by]
  const size = (value: bigint) => (value < 0n ? -value : value)
  const places = (2n * size(n) * 10n ** 20n + size(d)) / (2n * size(d))
  const cents = (places + 5n * 10n ** 17n) / 10n ** 18n
  return n < 0n === d < 0n ? cents : -cents
}

const FIGURE = /(\d[\d,]*)(\.\d+)?/g

/**
 * What an equation of a worksheet says before its last equals sign, what it says after it, and by how much the two may be
 * apart as its figures are rounded where they are shown.
 */
export function sidesOf(step: string): { worked: number; told: number; within: number } {
  const plain = step
    .replace(/, halfway between [^=×÷+−;]*?(?= =| ×| ÷| \+| −|;|\)|$)/g, '')
    // Hours are printed as exact as they are told, or to five places.
    .replace(/(\d)(\.\d+)? h\b/g, (_, whole, decimals = '.') => `${whole}${decimals.padEnd(6, '0')} h`)
    .replace(
      /yd³|ft²|ft³|ft|m³|m²|beds?|bales?|tons?|to buy|as material|of driving|missing to the least|for overhead|days?|mi|\bh\b|\bm\b|\$/g,
      '',
    )
    .replace(/([\d.]+)%/g, '($1 / 100)')
    .replaceAll('×', '*')
    .replaceAll('÷', '/')
    .replaceAll('−', '-')
  const at = plain.lastIndexOf('=')
  const [left, right] = [plain.slice(0, at), plain.slice(at + 1).replaceAll(',', '')]
  const worked = evaluate(left.replaceAll(',', ''))
  const shown = [...left.matchAll(FIGURE)]
  const moved = shown.map(({ index, 0: figure, 2: decimals }) => {
    const half = 0.5 / 10 ** Math.max(2, (decimals?.length ?? 1) - 1)
    const more = Number(figure.replaceAll(',', '')) + half
    const other = left.slice(0, index) + more + left.slice(index + figure.length)
    return Math.abs(evaluate(other.replaceAll(',', '')) - worked)
  })
  const within = moved.reduce((sum, part) => sum + part, 0.00501)
  return { worked, told: Number(right), within }
}

/** The equations of a step, each with its own name. */
export function equationsOf(step: string): string[] {
  const at = step.lastIndexOf(': ')
  return step
    .slice(at + 2)
    .split('; ')
    .filter(part => part.includes(' = '))
}

const shares = fc.constantFrom(null, '0.6', '0.333')
// By the bale, the ton or the square foot at a depth, with rates for each of these or for each yd³.
const sold = fc.record({
  saleUnit: fc.constantFrom('volume' as const, 'bale' as const, 'ton' as const, 'area' as const),
  ratesPer: fc.constantFrom('volume' as const, 'sold' as const),
  baleCovers: fc.constantFrom('18', '20'),
  soldDepth: fc.constantFrom('2', '3'),
  soldDensity: fc.constantFrom('2600', '1040'),
})
const adjusted = fc.constantFrom<Terms['adjustment']>(
  null,
  { by: 'share', value: '-0.1', reason: 'neighbor' },
  { by: 'share', value: '0.075', reason: 'far' },
  { by: 'money', value: '-40', reason: 'again' },
  { by: 'money', value: '-90000', reason: 'all' },
)

/** A job with its table and terms: finishes by cost and by rate, material apart, tiers, extras, travel, discounts, taxes. */
export const anyPriced = fc
  .record({
    beds: anyBeds,
    ways: fc.array(anyWay, { minLength: 10, maxLength: 10 }),
    table: anyCostTable,
    extras: fc.subarray(['edging', 'weeding']),
    shares: fc.array(shares, { minLength: 6, maxLength: 6 }),
    travel: fc.constantFrom('0', '35.5'),
    tax: fc.constantFrom(null, taxOf(), taxOf({ prices: 'with' }), taxOf({ rounded: 'line' })),
    adjustment: adjusted,
    sold: fc.array(sold, { minLength: 6, maxLength: 6 }),
  })
  .map(({ beds, ways, table, extras, shares, travel, tax, adjustment, sold }) => {
    const whole: RateTable = {
      ...table,
      tax,
      travel: [{ postcodes: ['787*'], charge: travel, drive: null, driven: null }],
      finishes: table.finishes.map((finish, at) => ({ ...finish, ...sold[at]!, materialShare: shares[at]! })),
    }
    const job = { ...jobAway(beds, ways, whole, extras), postcode: '78701' }
    return { job, table: whole, terms: { ...plainTerms, adjustment } }
  })
