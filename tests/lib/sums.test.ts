import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Decimal, figureOf, middleOf, sumOf } from '../../src/lib/decimal.ts'

// Of very different sizes and with thirds, so that the order in which they are added shows in the last digit.
const part = fc
  .tuple(fc.integer({ min: -999, max: 999 }), fc.integer({ min: -30, max: 30 }), fc.boolean())
  .map(([number, power, third]) => {
    const value = new Decimal(number).times(new Decimal(10).pow(power))
    return third ? value.div(3) : value
  })

describe('a sum of decimals', () => {
  it('is added from the smallest up, as decimal.js orders them, however the parts stand', () => {
    fc.assert(
      fc.property(fc.array(part, { maxLength: 12 }), parts => {
        const rising = parts.toSorted((a, b) => a.comparedTo(b))
        const expected = rising.reduce((sum, one) => sum.plus(one), new Decimal(0))
        expect(sumOf(parts).toString()).toBe(expected.toString())
        expect(sumOf(parts.toReversed()).toString()).toBe(expected.toString())
      }),
    )
  })

  it('tells parts apart by their last digits', () => {
    const third = new Decimal(1).div(3)
    const parts = ['1e40', '3.5', '-1e40', '0.1'].map(text => third.plus(text))
    expect(sumOf(parts).eq(sumOf(parts.toReversed()))).toBe(true)
  })
})

describe('a figure that was read', () => {
  it('is what it says, however many others were read since', () => {
    const figures = Array.from({ length: 5000 }, (_, index) => `${index}.5`)
    expect(figures.map(figure => figureOf(figure).toFixed())).toEqual(figures)
    expect(figures.map(figure => figureOf(figure).toFixed())).toEqual(figures)
  })

  it('has the middle of its own span', () => {
    expect(middleOf({ lower: '1', upper: '2' }).toFixed()).toBe('1.5')
    expect(middleOf({ lower: '1', upper: '22' }).toFixed()).toBe('11.5')
    expect(middleOf({ lower: '12', upper: '2' }).toFixed()).toBe('7')
  })
})
