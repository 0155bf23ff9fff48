import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawBed } from '../../src/drawing/bed.ts'
import { outlineOf } from '../../src/estimate/job/outline.ts'
import { viewReadBeds } from '../../src/requests/bed-view.ts'
import { anyBed } from '../estimate/generated.ts'
import { bedOf, testTable } from '../estimate/jobs.ts'
import { faultsOf, labelBoxes, overlapping, readSvg } from './read-svg.ts'

const table = testTable()

function drawn(bed: Parameters<typeof bedOf>[0], language: 'en' | 'es' = 'en') {
  const [view] = viewReadBeds([bedOf(bed)], table, language)
  return readSvg(view!.drawing!)
}

const labels = (elements: ReturnType<typeof readSvg>) => labelBoxes(elements).map(box => box.label)
const holesOf = (bed: Parameters<typeof bedOf>[0]) => outlineOf(bedOf(bed))!.cutOuts ?? []

describe('what is cut out of a bed', () => {
  it('is drawn to scale as holes in a row along the middle', () => {
    const bed = { sizes: { length: '20', width: '8' }, cutOuts: '2 of 3 ft; 4 x 2 ft' }
    expect(holesOf(bed)).toMatchObject([
      { round: true, width: 3, height: 3, y: 2.5, of: 0 },
      { round: true, width: 3, height: 3, y: 2.5, of: 0 },
      { round: false, width: 4, height: 2, y: 3, of: 1 },
    ])
    expect(outlineOf(bedOf(bed))!.path.match(/M/g)).toHaveLength(4)
  })

  it('has its figure in the hole where there is room', () => {
    const elements = drawn({ sizes: { length: '20', width: '8' }, cutOuts: '10 x 4 ft' })
    expect(labels(elements)).toContain('10 ft × 4 ft')
    expect(labels(elements).join(' ')).not.toContain('Cut out')
  })

  it('is said under the drawing where there is none, and always in its title', () => {
    const elements = drawn({ cutOuts: '3 of 6 in across' })
    expect(labels(elements).join(' ')).toContain('Cut out: 3 of 6 in across')
    expect(elements[1]!.text).toBe('Rectangle, 20 ft × 5 ft. Cut out: 3 of 6 in across')
    expect(drawn({ cutOuts: '3 of 2 ft' }, 'es')[1]!.text).toContain('Huecos: 3 de 2 pies de diámetro')
  })

  it('that can’t be placed is only named in the title', () => {
    const long = { shape: 'circle', sizes: { diameter: '10' }, cutOuts: '11 x 1 ft' }
    for (const bed of [long, { cutOuts: '40 of 6 in' }]) {
      expect(holesOf(bed)).toEqual([])
      expect(outlineOf(bedOf(bed))!.path).toBe(outlineOf(bedOf({ ...bed, cutOuts: '' }))!.path)
      expect(drawn(bed)[1]!.text).toContain('Cut out: ')
    }
  })

  it('stands beside the hole of a ring, not in it', () => {
    const [hole] = holesOf({ shape: 'ring', sizes: { outer: '20', inner: '8' }, cutOuts: '2 ft' })
    const far = Math.hypot(hole!.x + 1 - 10, hole!.y + 1 - 10)
    expect(far).toBeGreaterThan(5)
    expect(far).toBeLessThan(9)
  })
})

it('holes stay apart, and within ovals and circles', () => {
  const sizes = fc.record({
    length: fc.integer({ min: 6, max: 30 }).map(String),
    width: fc.integer({ min: 6, max: 30 }).map(String),
  })
  const cutOuts = fc.constantFrom('2 of 1 ft', '5 of 1 x 0.5 ft', '1 ft; 2 sq ft; 1.5 x 1 ft')
  fc.assert(
    fc.property(sizes, cutOuts, (told, typed) => {
      const holes = holesOf({ shape: 'oval', sizes: told, cutOuts: typed })
      const [length, width] = [Number(told.length), Number(told.width)]
      for (const [index, { x, y, width: across, height: down }] of holes.entries()) {
        for (const corner of [
          [x, y],
          [x + across, y],
          [x, y + down],
          [x + across, y + down],
        ] as const) {
          const [dx, dy] = [(corner[0] * 2) / length - 1, (corner[1] * 2) / width - 1]
          expect(dx * dx + dy * dy).toBeLessThanOrEqual(1)
        }
        for (const other of holes.slice(index + 1)) {
          const apart = Math.abs(other.x + other.width / 2 - x - across / 2) - (other.width + across) / 2
          const over = Math.abs(other.y + other.height / 2 - y - down / 2) - (other.height + down) / 2
          expect(Math.max(apart, over)).toBeGreaterThan(0)
        }
      }
    }),
  )
})

it('figures never overlap or leave the drawing, whatever is cut out of whatever bed', () => {
  const beds = anyBed.filter(bed => bed.cutOuts !== undefined)
  fc.assert(
    fc.property(beds, bed => {
      const elements = drawn(bed)
      expect(faultsOf(elements)).toEqual([])
      const boxes = labelBoxes(elements)
      expect(overlapping(boxes)).toEqual([])
      const [, , width, height] = elements[0]!.attributes.viewBox!.split(' ').map(Number)
      for (const box of boxes) {
        expect(box.right).toBeLessThanOrEqual(width! + 0.5)
        expect(box.bottom).toBeLessThanOrEqual(height!)
      }
    }),
  )
})

it('a bed without any is drawn as before', () => {
  const bed = bedOf()
  expect(outlineOf(bed)).not.toHaveProperty('cutOuts')
  const options = { hatch: 'chips', title: 'Bed', sizes: {}, id: 'bed' } as const
  expect(drawBed(outlineOf(bed)!, { ...options, cutOuts: { figures: [], words: '' } })).toBe(
    drawBed(outlineOf(bed)!, options),
  )
})
