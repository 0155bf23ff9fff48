import { expect, test } from 'vitest'
import { type CountedLine, lineQuantity } from '../../src/quotes/line-name.ts'

const line = (quantity: string | null, rate: string | null = '94.00'): CountedLine => ({
  quantity,
  rate,
  unit: 'yd3',
})

test('a line tells how much of it at which rate', () => {
  expect(lineQuantity(line('2.5000'), 'USD', 'en')).toBe('2.5 cubic yards at $94.00')
  expect(lineQuantity(line(null), 'USD', 'en')).toBe(null)
})

test('a quantity with more decimals than are shown says that it is about that much', () => {
  expect(lineQuantity(line('2.6472'), 'USD', 'en')).toBe('about 2.65 cubic yards at $94.00')
  expect(lineQuantity(line('2.6472'), 'USD', 'es')).toMatch(/^cerca de 2\.65 yardas cúbicas/)
})
