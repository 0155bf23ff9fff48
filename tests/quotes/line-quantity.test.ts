import { expect, test } from 'vitest'
import { type CountedLine, lineQuantity } from '../../src/quotes/line-name.ts'
import { testTable } from '../estimate/jobs.ts'

const table = testTable()

const line = (quantity: string | null, rate: string | null = '94.00'): CountedLine => ({
  kind: 'finish',
  slug: 'shredded-wood',
  quantity,
  rate,
  unit: 'yd3',
})

test('a line tells how much of it at which rate', () => {
  expect(lineQuantity(line('2.5000'), table, 'en')).toBe('2.5 cubic yards at $94.00')
  expect(lineQuantity(line('1.0000'), table, 'en')).toBe('1 cubic yard at $94.00')
  expect(lineQuantity(line(null), table, 'en')).toBe(null)
})

test('a quantity with more decimals than are shown says that it is about that much', () => {
  expect(lineQuantity(line('2.6472'), table, 'en')).toBe('about 2.65 cubic yards at $94.00')
  expect(lineQuantity(line('2.6472'), table, 'es')).toMatch(/^cerca de 2\.65 yardas cúbicas/)
})

test('what is sold by the bale, the ton or its area is told in these', () => {
  const sold = (unit: CountedLine['unit'], quantity = '30') => ({ ...line(quantity, '14.00'), unit })
  expect(lineQuantity(sold('bale'), table, 'en')).toBe('30 bales at $14.00')
  expect(lineQuantity(sold('bale', '1.0000'), table, 'es')).toBe('1 paca a $14.00')
  expect(lineQuantity(sold('bale'), table, 'es')).toBe('30 pacas a $14.00')
  expect(lineQuantity(sold('ton', '1'), table, 'en')).toBe('1 ton at $14.00')
  expect(lineQuantity(sold('tonne', '2.5'), table, 'es')).toBe('2.5 toneladas a $14.00')
  const finishes = table.finishes.map(one => ({ ...one, saleUnit: 'area' as const, soldDepth: '2' }))
  expect(lineQuantity(sold('ft2'), { ...table, finishes }, 'en')).toBe('30 square feet, 2 in deep at $14.00')
  expect(lineQuantity(sold('ft2'), { ...table, finishes }, 'es')).toBe(
    '30 pies cuadrados de 2 pulg de grosor a $14.00',
  )
})
