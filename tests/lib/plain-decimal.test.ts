import { array, assert, constantFrom, integer, property, record, stringMatching } from 'fast-check'
import { expect, test } from 'vitest'
import { scan, takeNumber } from '../../src/estimate/reading/typed.ts'
import { readFigure } from '../../src/http/read-figure.ts'
import { plainDecimal } from '../../src/lib/plain-decimal.ts'

test.each([
  ['1,250.50', '1250.50'],
  ['3,8', '3.8'],
  ['1.200,5', '1200.5'],
  ['1,250', '1250'],
  ['1.250', '1.250'],
  ['1.250.000', '1250000'],
  ['1250,250', '1250.250'],
  ['0,250', '0.250'],
  [',250', '0.250'],
  ['3.', '3'],
])('%s is %s', (typed, plain) => {
  expect(plainDecimal(typed)).toBe(plain)
})

test.each(['1.2.3', '1,2,3', '12,34,567', '1,250,50', '0,250,000', '1,250,', '3..'])(
  '%s is no figure',
  typed => {
    expect(plainDecimal(typed)).toBeNull()
  },
)

const written = record({
  whole: integer({ min: 0, max: 9_999_999 }),
  decimals: stringMatching(/^\d{0,4}$/),
  marks: constantFrom([',', '.'], ['.', ','], ['', '.'], ['', ',']),
})

test('a figure is the same however its thousands and decimals are marked', () => {
  assert(
    property(written, ({ whole, decimals, marks: [grouping, mark] }) => {
      const groups = String(whole).replace(/\B(?=(\d{3})+$)/g, grouping!)
      // What can be read in two ways: a point by itself between thousands, a comma by itself before three decimals.
      if (decimals === '' && grouping === '.' && groups.length < 8) return
      if (decimals.length === 3 && mark === ',' && /^[1-9]\d{0,2}$/.test(groups)) return
      const typed = decimals === '' ? groups : `${groups}${mark}${decimals}`
      expect(plainDecimal(typed)).toBe(decimals === '' ? String(whole) : `${whole}.${decimals}`)
    }),
    { numRuns: 5000 },
  )
})

const marked = array(constantFrom(...'0123456789.,.,'), { minLength: 1, maxLength: 12 })
  .map(signs => signs.join(''))
  .filter(text => /\d$/.test(text) && text.length - text.replace(/\d/g, '').length <= 7)

test('sizes of beds and figures of forms are read alike', () => {
  assert(
    property(marked, typed => {
      const scanner = scan(typed)
      const size = takeNumber(scanner)
      const figure = readFigure(typed, 12)
      if (figure === null || size === null || scanner.at < typed.length) expect(figure).toBeNull()
      else expect(figure).toBe(size.value.toFixed())
    }),
    { numRuns: 20_000 },
  )
})
