import { expect, test } from 'vitest'
import { readFigure } from '../../src/http/read-figure.ts'

test.each([
  ['85', '85'],
  [' $85 ', '85'],
  ['$ 1,250.50', '1250.5'],
  ['1 250,50', '1250.5'],
  ['1.250,50', '1250.5'],
  ['1’250.50', '1250.5'],
  ['€95', '95'],
  ['85 EUR', '85'],
  ['USD 85', '85'],
  ['85,5', '85.5'],
  ['1,250', '1250'],
  ['1,250,000', '1250000'],
  ['.75', '0.75'],
  ['0.75 hours', '0.75'],
  ['0.75 h', '0.75'],
  ['007.50', '7.5'],
  ['0', '0'],
  ['3.', '3'],
])('reads %j as %s', (typed, figure) => {
  expect(readFigure(typed, 2)).toBe(figure)
})

test.each([
  '',
  ' ',
  '-4',
  '1.2.3',
  '12,34,567',
  '1,2,3',
  '1e5',
  '0x10',
  'free',
  '85 each',
  '12345678',
  '1.234',
  '٣',
  '9'.repeat(60),
  '$',
  ',',
  '1,250,50',
])('does not guess at %j', typed => {
  expect(readFigure(typed, 2)).toBeNull()
})
