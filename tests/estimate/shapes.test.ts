import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { outlineOf } from '../../src/estimate/job/outline.ts'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { shapeOf } from '../../src/estimate/shapes/all-shapes.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { shaped } from './generated.ts'
import { bedOf, testTable } from './jobs.ts'

const table = testTable()
type Shaped = Pick<BedTold, 'shape' | 'sizes'>

function figures(shape: Shaped) {
  const { area, edge, inPlace } = bedQuantities(bedOf(shape), table)
  return { area: area.toNumber(), edge: edge?.toNumber() ?? null, inPlace: inPlace.toNumber() }
}

describe('each shape', () => {
  it.each<[string, Record<string, string>, number, number | null]>([
    ['rectangle', { length: '20', width: '5' }, 100, 50],
    ['strip', { length: '20', width: '5' }, 100, 30],
    ['curvy', { length: '20', width: '5' }, 100, 50],
    ['circle', { diameter: '20' }, Math.PI * 100, Math.PI * 20],
    ['oval', { length: '20', width: '20' }, Math.PI * 100, Math.PI * 20],
    ['triangle', { base: '6', height: '4' }, 12, 16],
    ['ring', { outer: '10', inner: '4' }, Math.PI * 21, Math.PI * 14],
    ['tree-ring', { inner: '4', band: '3' }, Math.PI * 21, Math.PI * 14],
    ['two-arms', { length: '10', width: '5', armLength: '3', armWidth: '6' }, 68, 36],
    ['circle-round', { round: '62.83185307179586' }, Math.PI * 100, Math.PI * 20],
    ['half-circle', { diameter: '20' }, Math.PI * 50, Math.PI * 10 + 20],
    ['quarter-circle', { radius: '10' }, Math.PI * 25, Math.PI * 5 + 20],
    ['sides', { a: '3', b: '4', c: '5' }, 6, 12],
    ['sides', { a: '15', b: '13', c: '14' }, 84, 42],
    ['trapezoid', { base: '10', top: '4', height: '4' }, 28, 24],
    ['trapezoid', { base: '4', top: '10', height: '4' }, 28, 24],
    ['l-shape', { length: '10', width: '8', cutLength: '4', cutWidth: '3' }, 68, 36],
    ['area', { area: '100' }, 100, null],
    ['volume', { volume: '25 cu ft' }, 100, null],
  ])('%s has its area and edge', (shape, sizes, area, edge) => {
    const found = figures({ shape, sizes })
    expect(found.area).toBeCloseTo(area, 10)
    if (edge === null) expect(found.edge).toBeNull()
    else expect(found.edge).toBeCloseTo(edge, 10)
  })

  it('takes a told volume as it is, whatever is planted or lies there', () => {
    const told: Partial<BedTold> = { shape: 'volume', sizes: { volume: '2 yd' } }
    const bed = bedOf({ ...told, planted: 'full', lying: 'thick' })
    expect(bedQuantities(bed, table).inPlace.toNumber()).toBe(54)
  })
})

describe('added depth', () => {
  const inPlace = (changes: Partial<BedTold>) => bedQuantities(bedOf(changes), table).inPlace.toNumber()

  it('is the target less what lies there, never below the thinnest top-up', () => {
    expect(inPlace({ depth: '3', lying: 'fair' })).toBeCloseTo((100 * 2) / 12, 12)
    expect(inPlace({ depth: '3', lying: 'thick' })).toBeCloseTo(100 / 12, 12)
    expect(inPlace({ depth: '3', lying: '2.5' })).toBeCloseTo(100 / 12, 12)
    expect(inPlace({ depth: '3', lying: '9' })).toBeCloseTo(100 / 12, 12)
  })

  it('loses the share planted', () => {
    expect(inPlace({ planted: 'half' })).toBeCloseTo(25 * 0.85, 12)
    expect(inPlace({ planted: 'full' })).toBeCloseTo(25 * 0.7, 12)
  })
})

it('the distance round an oval agrees with the integral of its arc', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 400 }), (length, width) => {
      const [a, b] = [length / 2, width / 2]
      // The trapezoid rule converges geometrically on a whole period.
      const steps = 20_000
      let sum = 0
      for (let step = 0; step < steps; step++) {
        const angle = (2 * Math.PI * step) / steps
        sum += Math.hypot(a * Math.sin(angle), b * Math.cos(angle))
      }
      const edge = shapeOf('oval').edge({ length: new Decimal(length), width: new Decimal(width) })!
      expect(edge.toNumber() / ((sum * 2 * Math.PI) / steps)).toBeCloseTo(1, 7)
    }),
    { numRuns: 60 },
  )
})

it('the distance round the thinnest oval is twice its length, and a round one pi times across, to 30 digits', () => {
  const edge = (length: string, width: string) =>
    shapeOf('oval').edge({ length: new Decimal(length), width: new Decimal(width) })!
  expect(edge('100000', '0.001').toNumber()).toBeCloseTo(200_000, 6)
  expect(edge('7', '7').toFixed(28)).toBe('21.9911485751285526692385036830')
})

describe('laws of every shape', () => {
  it('a bed k times as long and wide has k² times the area and k times the edge', () => {
    fc.assert(
      fc.property(shaped, fc.integer({ min: 2, max: 9 }), (shape, k) => {
        const power = (name: string) => (name === 'area' ? k * k : k)
        const sizes = Object.fromEntries(
          Object.entries(shape.sizes).map(([name, size]) => [
            name,
            new Decimal(size).times(power(name)).toFixed(),
          ]),
        )
        const [one, large] = [figures(shape), figures({ ...shape, sizes })]
        expect(large.area / one.area).toBeCloseTo(k * k, 9)
        if (one.edge !== null) expect(large.edge! / one.edge).toBeCloseTo(k, 9)
      }),
    )
  })

  it('its elasticities are those of its own area', () => {
    const nudge = new Decimal('1e-9')
    fc.assert(
      fc.property(shaped, told => {
        const bed = bedOf(told)
        const shape = shapeOf(bed.shape)
        const values = Object.fromEntries(Object.entries(bed.sizes).map(([name, size]) => [name, size.value]))
        const area = shape.area(values, new Decimal(1))
        const found = shape.sizes.map(({ name, reads }) => {
          const grown = {
            ...values,
            [name]: values[name]!.times(nudge.plus(1).pow(reads === 'area' ? 2 : 1)),
          }
          return shape.area(grown, new Decimal(1)).div(area).minus(1).div(nudge).toNumber()
        })
        shape.elasticities(values).forEach((elasticity, index) => {
          expect(found[index]).toBeCloseTo(elasticity, 5)
        })
      }),
    )
  })

  it('two parts of a split rectangle have the area of the whole', () => {
    const tenths = fc.integer({ min: 1, max: 900 }).map(n => n / 10)
    fc.assert(
      fc.property(tenths, tenths, tenths, (first, second, width) => {
        const area = (length: number) =>
          shapeOf('rectangle').area(
            { length: new Decimal(length), width: new Decimal(width) },
            new Decimal(1),
          )
        const whole = area(new Decimal(first).plus(second).toNumber())
        expect(area(first).plus(area(second)).eq(whole)).toBe(true)
      }),
    )
  })
})

function acrossOf({ shape, sizes }: Shaped): number {
  const figures = Object.values(sizes).map(Number)
  if (shape === 'tree-ring') return figures[0]! + 2 * figures[1]!
  if (shape === 'area') return Math.sqrt(figures[0]!)
  if (shape === 'circle-round') return figures[0]! / Math.PI
  if (shape === 'trapezoid') return Math.max(figures[0]!, figures[1]!)
  return shape === 'sides' ? Math.max(...figures) : figures[0]!
}

describe('the drawing', () => {
  it('is as large as the bed, with every dimension line inside it', () => {
    fc.assert(
      fc.property(shaped, told => {
        const outline = outlineOf(bedOf(told))!
        expect(outline.width).toBeCloseTo(acrossOf(told), 3)
        expect(outline.notional).toBe(told.shape === 'area')
        for (const { from, to } of outline.dimensions) {
          for (const [x, y] of [from, to]) {
            expect(x).toBeGreaterThanOrEqual(0)
            expect(x).toBeLessThanOrEqual(outline.width)
            expect(y).toBeGreaterThanOrEqual(0)
            expect(y).toBeLessThanOrEqual(outline.height)
          }
        }
        expect(outline.path).toMatch(/^M[-\d. ACHLMVZ]+Z$/)
      }),
    )
  })

  it('shows the wall of a strip, the hole of a ring, and nothing for a volume', () => {
    expect(outlineOf(bedOf({ shape: 'strip' }))!.wall).toEqual([0, 0, 20, 0])
    const ring = outlineOf(bedOf({ shape: 'ring', sizes: { outer: '10', inner: '4' } }))!
    expect(ring.path.match(/M/g)).toHaveLength(2)
    expect(ring.dimensions[1]).toMatchObject({ size: 'inner', from: [3, 5], to: [7, 5] })
    expect(outlineOf(bedOf({ shape: 'volume', sizes: { volume: '50 cu ft' } }))).toBeNull()
  })
})
