import { expect, test } from 'vitest'
import { type Hatch, swatchTile } from '../../src/drawing/hatches.ts'
import { drawRoom } from '../../src/drawing/room-bar.ts'
import { roundLength } from '../../src/drawing/scale-bar.ts'
import { shapeIcon } from '../../src/drawing/shape-icons.ts'
import { drawSymbols, drawTile, shareTile } from '../../src/drawing/tile.ts'
import { shapeNames, shapeOf } from '../../src/estimate/shapes/all-shapes.ts'
import { faultsOf, readSvg } from './read-svg.ts'

const HATCHES: Hatch[] = ['shreds', 'chips', 'straw', 'dots', 'pebbles']
const drawSwatch = (hatch: Hatch, colour: string) => drawTile(swatchTile(hatch, colour, 'finish-1'))

test('each finish has a hatching of its own, whatever its colour', () => {
  const marks = HATCHES.map(
    hatch => readSvg(drawSwatch(hatch, '#8d5a3a')).find(each => each.name === 'path')!.attributes.d,
  )
  expect(new Set(marks).size).toBe(HATCHES.length)
})

test.each(HATCHES)('the swatch of %s is well-formed, and hidden since its label says it', hatch => {
  const elements = readSvg(drawSwatch(hatch, '#2d2622'))
  expect(faultsOf(elements)).toEqual([])
  expect(elements[0]!.attributes['aria-hidden']).toBe('true')
})

test('a colour that is none is not drawn', () => {
  expect(drawSwatch('dots', '"><script>')).not.toContain('script')
})

test('a tile that stands many times on a page is drawn once, and shown by its id', () => {
  const tile = swatchTile('chips', '#2d2622', 'stone')
  const { symbol, drawing } = shareTile(tile, 'stone')
  const [symbols, shown] = [readSvg(drawSymbols([symbol])), readSvg(drawing)]
  expect(faultsOf(symbols)).toEqual([])
  expect(
    symbols.filter(({ name, attributes }) => name === 'symbol' && attributes.id === 'stone'),
  ).toHaveLength(1)
  expect(shown.map(({ name }) => name)).toEqual(['svg', 'use'])
  expect(shown[1]!.attributes.href).toBe('#stone')
  expect(shown[0]!.attributes).toEqual(readSvg(drawTile(tile))[0]!.attributes)
})

test.each(shapeNames())('%s has an icon to be picked by', shape => {
  const elements = readSvg(drawTile(shapeIcon(shapeOf(shape).icon)))
  expect(elements.length).toBeGreaterThan(1)
  expect(elements[0]!.attributes['aria-hidden']).toBe('true')
})

test.each([
  [0, 8, 0],
  [6, 8, 0.75],
  [8, 8, 1],
])('with %d of %d labor hours taken, that share of the day is hatched', (taken, room, share) => {
  const elements = readSvg(drawRoom({ taken, room, title: 'Room', id: 'day' }))
  const [hatched, whole] = elements
    .filter(each => each.name === 'rect')
    .map(each => Number(each.attributes.width))
  expect(faultsOf(elements)).toEqual([])
  expect(hatched! / whole!).toBeCloseTo(share, 3)
})

test('what is over the room of a day is marked', () => {
  expect(drawRoom({ taken: 10, room: 8, title: 'Full', id: 'day' })).toContain('room-over')
  expect(drawRoom({ taken: 8, room: 8, title: 'Full', id: 'day' })).not.toContain('room-over')
})

test.each([
  [7, 5],
  [4.9, 2],
  [1.5, 1],
  [0.6, 0.5],
  [23, 20],
  [1000, 1000],
])('at most %d gives a scale bar of %d', (most, length) => {
  expect(roundLength(most)).toBe(length)
})
