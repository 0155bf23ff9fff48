import { polygonArea, polygonLength } from 'd3-polygon'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Bed } from '../../src/estimate/job/bed.ts'
import { outlineOf } from '../../src/estimate/job/outline.ts'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { listed, shaped } from './generated.ts'
import { bedOf, testTable } from './jobs.ts'

const STRAIGHT = ['rectangle', 'triangle', 'sides', 'trapezoid', 'l-shape', 'two-arms']
const table = testTable()

/** The corners of a path of straight lines. */
function cornersOf(path: string): [number, number][] {
  const corners: [number, number][] = []
  for (const [, command, figures] of path.matchAll(/([MLHV])([^A-Z]*)/g)) {
    const [first, second] = figures!.trim().split(/[ ,]+/).map(Number)
    const [x, y] = corners.at(-1) ?? [0, 0]
    if (command === 'H') corners.push([first!, y])
    else if (command === 'V') corners.push([x, first!])
    else corners.push([first!, second!])
  }
  return corners
}

describe('what is drawn', () => {
  it('has the area and the edge that are reckoned, by d3-polygon', () => {
    fc.assert(
      fc.property(
        shaped.filter(({ shape }) => STRAIGHT.includes(shape)),
        told => {
          const bed = bedOf(told)
          const { edge } = bedQuantities(bed, table)
          const { area } = bedQuantities({ ...bed, shape: told.shape as Bed['shape'] }, table)
          const corners = cornersOf(outlineOf(bed)!.path)
          const round = polygonLength(corners)
          // Drawn to a ten-thousandth of a foot.
          expect(Math.abs(polygonArea(corners)) / area.toNumber()).toBeCloseTo(1, 3)
          expect(round / edge!.toNumber()).toBeCloseTo(1, 3)
        },
      ),
    )
  })

  it('by widths along a line has the edge that is reckoned, and as it was understood before the area where no two neighbouring strips are alike', () => {
    fc.assert(
      fc.property(
        listed.filter(({ shape }) => shape !== 'radii'),
        told => {
          const bed = bedOf(told)
          const { edge } = bedQuantities(bed, table)
          const { area } = bedQuantities({ ...bed, shape: told.shape as Bed['shape'] }, table)
          const corners = cornersOf(outlineOf(bed)!.path)
          const strips = told.sizes.spacings?.split(' ') ?? told.sizes.offsets!.split(' ').slice(1)
          expect(polygonLength(corners) / edge!.toNumber()).toBeCloseTo(1, 3)
          if (told.sizes.spacing === undefined && strips.every((one, at) => one !== strips[at + 1]))
            expect(Math.abs(polygonArea(corners)) / area.toNumber()).toBeCloseTo(1, 3)
        },
      ),
      { numRuns: 300 },
    )
  })

  it('stays within its box', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          shaped.filter(({ shape }) => STRAIGHT.includes(shape)),
          listed,
        ),
        told => {
          const { path, width, height } = outlineOf(bedOf(told))!
          for (const [x, y] of cornersOf(path)) {
            expect(x).toBeGreaterThanOrEqual(0)
            expect(x).toBeLessThanOrEqual(width + 0.0002)
            expect(y).toBeGreaterThanOrEqual(0)
            expect(y).toBeLessThanOrEqual(height)
          }
        },
      ),
    )
  })
})
