import { Decimal } from 'decimal.js'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { commonScale, drawBed } from '../../src/drawing/bed.ts'
import { shapeOf } from '../../src/estimate/shapes/all-shapes.ts'
import { faultsOf, labelBoxes, overlapping, readSvg } from './read-svg.ts'

type Name = Parameters<typeof shapeOf>[0]
const SIZES: [Name, string[]][] = [
  ['rectangle', ['length', 'width']],
  ['strip', ['length', 'width']],
  ['curvy', ['length', 'width']],
  ['circle', ['diameter']],
  ['oval', ['length', 'width']],
  ['triangle', ['base', 'height']],
  ['ring', ['outer', 'inner']],
  ['tree-ring', ['inner', 'band']],
  ['area', ['area']],
]

function outlineOf(shape: Name, sizes: Record<string, number>) {
  const exact = Object.fromEntries(Object.entries(sizes).map(([name, value]) => [name, new Decimal(value)]))
  return shapeOf(shape).outline(exact)!
}

function draw(shape: Name, sizes: Record<string, number>, labels: Record<string, string>, scale?: number) {
  const source = drawBed(outlineOf(shape, sizes), {
    hatch: 'chips',
    title: 'Bed 1 <"&\'>',
    sizes: labels,
    id: 'bed-0',
    colour: '#8d5a3a',
    scale,
  })
  return readSvg(source)
}

function scaleOf(elements: ReturnType<typeof readSvg>): number {
  return Number(
    /scale\(([^)]+)\)/.exec(elements.find(element => element.name === 'g')!.attributes.transform!)![1],
  )
}

const size = fc.double({ min: 0.25, max: 500, noNaN: true }).map(value => Math.round(value * 100) / 100)
const label = fc.constantFrom('2 ft', '12 ft 6 in', '0.75 m', '128 ft 11 1/4 in')
const bed = fc.record({
  shape: fc.constantFrom(...SIZES),
  values: fc.tuple(size, size),
  labels: fc.tuple(label, label),
  scale: fc.option(size, { nil: undefined }),
})

function drawAny({
  shape: [shape, names],
  values,
  labels,
  scale,
}: {
  shape: [Name, string[]]
  values: number[]
  labels: string[]
  scale?: number
}) {
  const ordered = shape === 'ring' ? [Math.max(...values) + 1, Math.min(...values)] : values
  const sizes = Object.fromEntries(names.map((name, index) => [name, ordered[index]!]))
  return draw(shape, sizes, Object.fromEntries(names.map((name, index) => [name, labels[index]!])), scale)
}

test('any bed is a well-formed drawing with a title, without inline style or broken references', () => {
  fc.assert(
    fc.property(bed, each => {
      const elements = drawAny(each)
      expect(faultsOf(elements)).toEqual([])
      expect(elements[0]!.attributes.role).toBe('img')
      expect(elements[1]).toMatchObject({
        name: 'title',
        text: 'Bed 1 <"&\'>',
        attributes: { id: 'bed-0-title' },
      })
    }),
  )
})

test('figures never overlap one another, stay on the drawing and are at least 12 pixels high', () => {
  fc.assert(
    fc.property(bed, each => {
      const elements = drawAny(each)
      const [, , width, height] = elements[0]!.attributes.viewBox!.split(' ').map(Number)
      const boxes = labelBoxes(elements)
      expect(overlapping(boxes)).toEqual([])
      for (const box of boxes) {
        expect(box.left).toBeGreaterThanOrEqual(-0.5)
        expect(box.right).toBeLessThanOrEqual(width! + 0.5)
        expect(box.top).toBeGreaterThanOrEqual(0)
        expect(box.bottom).toBeLessThanOrEqual(height!)
      }
      expect(width).toBe(288)
      for (const text of elements.filter(element => element.name === 'text')) {
        expect(Number(text.attributes['font-size'])).toBeGreaterThanOrEqual(12)
      }
    }),
  )
})

test('a figure that leaves the bed at a smaller scale still has its room beside it', () => {
  const elements = drawAny({
    shape: ['triangle', ['base', 'height']],
    values: [14.96, 2.72],
    labels: ['2 ft', '128 ft 11 1/4 in'],
    scale: 9.81,
  })
  for (const box of labelBoxes(elements)) expect(box.right).toBeLessThanOrEqual(288)
})

test('every size told stands on the drawing', () => {
  fc.assert(
    fc.property(bed, each => {
      const shown = labelBoxes(drawAny(each)).map(box => box.label)
      for (const [index] of each.shape[1].entries()) expect(shown).toContain(each.labels[index])
    }),
  )
})

test('the scale bar is as long as it says', () => {
  fc.assert(
    fc.property(bed, each => {
      const elements = drawAny(each)
      const halves = elements.filter(element => /^scale-/.test(element.attributes.class ?? ''))
      const drawn = halves.reduce((sum, half) => sum + Number(half.attributes.width), 0)
      const said = Number.parseFloat(labelBoxes(elements).at(-1)!.label)
      expect(Math.abs(drawn / scaleOf(elements) / said - 1)).toBeLessThan(0.01)
    }),
  )
})

test('a bed of 100 ft by 2 ft keeps its proportions and its column', () => {
  const elements = draw('strip', { length: 100, width: 2 }, { length: '100 ft', width: '2 ft' })
  expect(scaleOf(elements) * 100).toBeLessThanOrEqual(288)
  expect(scaleOf(elements) * 100).toBeGreaterThan(180)
  expect(Number(elements[0]!.attributes.height)).toBeLessThan(120)
})

test('beds are drawn to one scale, but none too small to see', () => {
  const beds: Parameters<typeof commonScale>[0] = [
    {
      outline: outlineOf('rectangle', { length: 40, width: 10 }),
      sizes: { length: '40 ft', width: '10 ft' },
    },
    { outline: outlineOf('circle', { diameter: 20 }), sizes: { diameter: '20 ft' } },
  ]
  const scale = commonScale(beds)
  expect(scaleOf(draw('rectangle', { length: 40, width: 10 }, beds[0]!.sizes, scale))).toBeCloseTo(scale, 5)
  expect(scaleOf(draw('circle', { diameter: 20 }, { diameter: '20 ft' }, scale))).toBeCloseTo(scale, 5)
  expect(scaleOf(draw('circle', { diameter: 1 }, { diameter: '1 ft' }, scale))).toBeGreaterThan(scale)
})

test('only a bed along a wall has a wall, only a plain area is dashed', () => {
  const classes = (shape: Name, names: string[]) =>
    draw(shape, Object.fromEntries(names.map((name, index) => [name, 9 - index])), {}).flatMap(
      each => each.attributes.class?.split(' ') ?? [],
    )
  for (const [shape, names] of SIZES) {
    expect(classes(shape, names).includes('wall')).toBe(shape === 'strip')
    expect(classes(shape, names).includes('bed-edge-notional')).toBe(shape === 'area')
  }
})
