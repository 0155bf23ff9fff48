import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Decimal, squareRoot } from '../../src/lib/decimal.ts'

const anyFigure = fc
  .tuple(fc.bigInt({ min: 0n, max: 10n ** 40n }), fc.integer({ min: -60, max: 20 }))
  .map(([digits, power]) => new Decimal(`${digits}e${power}`))

test('a square root is to the last digit the one that decimal.js gives', () => {
  fc.assert(
    fc.property(anyFigure, figure => {
      expect(squareRoot(figure)).toEqual(figure.sqrt())
    }),
  )
})

test('of a square it is exact', () => {
  fc.assert(
    fc.property(
      fc.bigInt({ min: 0n, max: 10n ** 18n }),
      fc.integer({ min: -12, max: 6 }),
      (digits, power) => {
        const root = new Decimal(`${digits}e${power}`)
        expect(squareRoot(root.times(root)).toString()).toBe(root.toString())
      },
    ),
  )
})

test('of less than nothing it is no number, as with decimal.js', () => {
  expect(squareRoot(new Decimal(-1)).isNaN()).toBe(true)
})
