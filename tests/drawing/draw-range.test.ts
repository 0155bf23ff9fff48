import fc from 'fast-check'
import { expect, test } from 'vitest'
import { drawRange } from '../../src/drawing/range-bar.ts'
import { faultsOf, labelBoxes, overlapping, readSvg } from './read-svg.ts'

const money = (value: number) => `$${value.toFixed(2)}`

function draw(low: number, likely: number, high: number) {
  const labels = { low: money(low), likely: money(likely), high: money(high) }
  const title = `${labels.low} to ${labels.high}, likely ${labels.likely}`
  return readSvg(drawRange({ low, likely, high, labels, title, id: 'range' }))
}

const range = fc
  .tuple(...[0, 0, 0].map(() => fc.integer({ min: 0, max: 9_999_999 })))
  .map(three => [...three].sort((a, b) => a - b) as [number, number, number])

test('the figures never overlap and stay on the drawing', () => {
  fc.assert(
    fc.property(range, three => {
      const elements = draw(...three)
      const boxes = labelBoxes(elements)
      expect(faultsOf(elements)).toEqual([])
      expect(overlapping(boxes)).toEqual([])
      for (const box of boxes) {
        expect(box.left).toBeGreaterThanOrEqual(-0.5)
        expect(box.right).toBeLessThanOrEqual(288.5)
        expect(box.bottom).toBeLessThanOrEqual(Number(elements[0]!.attributes.height))
      }
    }),
  )
})

test.each([
  [700, 700, 900],
  [700, 900, 900],
  [899, 900, 901],
  [0, 0, 10],
])('%d, %d, %d: all three are shown apart', (low, likely, high) => {
  const boxes = labelBoxes(draw(low, likely, high))
  expect(boxes.map(box => box.label).sort()).toEqual([money(low), money(likely), money(high)].sort())
  expect(overlapping(boxes)).toEqual([])
})

test('a single price is shown once, and said whole to a screen reader', () => {
  const elements = draw(120, 120, 120)
  expect(labelBoxes(elements).map(box => box.label)).toEqual(['$120.00'])
  expect(elements[1]!.text).toBe('$120.00 to $120.00, likely $120.00')
})

test('the band stands where its prices are on the ruler, which begins at nothing', () => {
  const elements = draw(600, 800, 1200)
  const band = elements.find(element => element.attributes.class === 'range-band')!.attributes
  const ruler = elements.filter(element => element.attributes.class?.startsWith('scale-'))
  const origin = Number(ruler[0]!.attributes.x)
  const perDollar = Number(band.width) / (1200 - 600)
  expect(Number(band.x) - origin).toBeCloseTo(600 * perDollar, 1)
})
