import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { outlineOf } from '../../src/estimate/job/outline.ts'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { partList } from '../../src/estimate/reading/lists.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { shapeOf } from '../../src/estimate/shapes/all-shapes.ts'
import { entryOf } from '../../src/estimate/shapes/sizes.ts'
import { unitSystem } from '../../src/estimate/units/units.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { bedOf, testTable, toldBed } from './jobs.ts'

const table = testTable()
const figures = (shape: string, sizes: Record<string, string>) =>
  bedQuantities(bedOf({ shape, sizes }), table)

describe('a list of sizes', () => {
  it.each([
    ['0 2.5 3.5', ['0', '2.5', '3.5']],
    ['10; 12 1/2; 9', ['10', '12 1/2', '9']],
    ['10 12 1/2 9', ['10', '12 1/2', '9']],
    ['10,14,18', ['10', '14', '18']],
    ['10, 14, 18', ['10', '14', '18']],
    ['2,5 3,5', ['2,5', '3,5']],
    ['2 ft', ['2 ft']],
    ['2 ft 3 ft 10', ['2 ft', '3 ft 10']],
    ['10 ft 6 in 9 ft 1 1/2 in 8', ['10 ft 6 in', '9 ft 1 1/2 in', '8']],
    ["12' 6\" 9' 4", ['12\' 6"', "9' 4"]],
    ['  ', []],
    [';;', []],
  ])('%j is parted', (typed, parts) => {
    expect(partList(typed, unitSystem('us')).entries).toEqual(parts)
  })

  it('may come as an array from another program', () => {
    const bed = { ...toldBed(), shape: 'radii', sizes: { radii: [10, '10 ft', 10, 10, 10, 10, 10, 10] } }
    const reading = readTold({ beds: [bed] }, table)
    expect(reading.ok && bedQuantities(reading.job.beds[0]!, table).area.toFixed(4)).toBe('314.1593')
  })

  it.each([
    ['offsets', { spacing: '10', offsets: '' }, ['beds.0.sizes.offsets fault.length-missing']],
    ['offsets', { spacing: '10', offsets: '5' }, ['beds.0.sizes.offsets fault.offsets-few']],
    ['offsets', { spacing: '10', offsets: '0 0' }, ['beds.0.sizes.offsets fault.offsets-zero']],
    ['offsets', { spacing: '10', offsets: '0 0 0' }, ['beds.0.sizes.offsets fault.offsets-zero']],
    ['offsets', { spacing: '10', offsets: '0 broad 0' }, ['beds.0.sizes.offsets fault.length-unreadable']],
    ['offsets', { spacing: '10', offsets: '5x4 3' }, ['beds.0.sizes.offsets fault.length-unreadable']],
    ['offsets', { spacing: '', offsets: '5 4' }, ['beds.0.sizes.spacing fault.length-missing']],
    ['uneven-offsets', { spacings: '', offsets: '5 4' }, ['beds.0.sizes.spacings fault.length-missing']],
    ['uneven-offsets', { spacings: '4', offsets: '' }, ['beds.0.sizes.offsets fault.length-missing']],
    ['uneven-offsets', { spacings: '4', offsets: '5' }, ['beds.0.sizes.offsets fault.offsets-count']],
    ['uneven-offsets', { spacings: '4 3', offsets: '5 5' }, ['beds.0.sizes.offsets fault.offsets-count']],
    ['uneven-offsets', { spacings: '4', offsets: '5 5 5' }, ['beds.0.sizes.offsets fault.offsets-count']],
    ['uneven-offsets', { spacings: '4 0', offsets: '5 5 5' }, ['beds.0.sizes.spacings fault.spacings-zero']],
    ['uneven-offsets', { spacings: '4 3', offsets: '0 0 0' }, ['beds.0.sizes.offsets fault.offsets-zero']],
    [
      'uneven-offsets',
      { spacings: '4 x 3', offsets: '5 5' },
      ['beds.0.sizes.spacings fault.length-unreadable'],
    ],
    ['radii', { radii: '5 5 5' }, ['beds.0.sizes.radii fault.radii-few']],
    ['radii', { radii: '5 5 5 5 5 5 5' }, ['beds.0.sizes.radii fault.radii-few']],
    ['radii', { radii: '5 5 0 5 5 5 5 5' }, ['beds.0.sizes.radii fault.radii-zero']],
    ['radii', { radii: '5 '.repeat(101) }, ['beds.0.sizes.radii fault.list-long']],
  ])('%s of %j is refused beside the field', (shape, sizes, faults) => {
    const reading = readTold({ beds: [toldBed({ shape, sizes } as object)] }, table)
    expect(reading.ok ? [] : reading.faults.map(({ field, key }) => `${field} ${key}`)).toEqual(faults)
  })
})

describe('by widths along a line', () => {
  it('three widths are a parabola', () => {
    // y = x² from 0 to 2 has the area 8/3.
    expect(figures('offsets', { spacing: '1', offsets: '0 1 4' }).area.toNumber()).toBeCloseTo(8 / 3, 12)
  })

  it('widths all alike are a rectangle, its edge included', () => {
    const { area, edge } = figures('offsets', { spacing: '4', offsets: '5 5 5 5 5 5' })
    expect(area.toNumber()).toBe(100)
    expect(edge!.toNumber()).toBe(50)
  })

  it('a width between may be zero, where the bed narrows to nothing', () => {
    // Two parabolas, each two thirds of 20 × 5.
    const { area } = figures('offsets', { spacing: '10', offsets: '0 5 0 5 0' })
    expect(area.toNumber()).toBeCloseTo((2 * 2 * 20 * 5) / 3, 12)
    expect(figures('offsets', { spacing: '10', offsets: '0 0 0 6' }).area.toNumber()).toBe(30)
  })

  it('is drawn along the line', () => {
    const outline = outlineOf(bedOf({ shape: 'offsets', sizes: { spacing: '10', offsets: '0 4 2 0' } }))!
    expect(outline).toMatchObject({ width: 30, height: 4, path: 'M0 4L0 4L10 0L20 2L30 4L30 4Z' })
  })
})

describe('round a peg', () => {
  it('radii all alike are a circle, its edge included', () => {
    const { area, edge } = figures('radii', { radii: '10 '.repeat(10) })
    expect(area.toNumber()).toBeCloseTo(Math.PI * 100, 10)
    expect(edge!.toNumber()).toBeCloseTo(Math.PI * 20, 10)
  })

  it('is drawn with the first radius up', () => {
    const outline = outlineOf(bedOf({ shape: 'radii', sizes: { radii: '3 4 3 4 3 4 3 4' } }))!
    expect(outline).toMatchObject({ width: 6, height: 6 })
    expect(outline.path).toMatch(/^M3 0L/)
  })
})

const tenths = fc.integer({ min: 5, max: 300 }).map(n => new Decimal(n).div(10))
const listed = fc.oneof(
  fc.tuple(fc.constant('radii' as const), fc.array(tenths, { minLength: 4, maxLength: 20 })),
  fc.tuple(fc.constant('offsets' as const), fc.array(tenths, { minLength: 2, maxLength: 20 })),
)

describe('laws of listed shapes', () => {
  it('elasticities are those of its own area, and sum to two', () => {
    const nudge = new Decimal('1e-9')
    fc.assert(
      fc.property(listed, ([shape, list]) => {
        const entries = list.map((value, at) => [entryOf(shape, at), value] as const)
        const sizes = Object.fromEntries(
          shape === 'offsets' ? [['spacing', new Decimal(3)], ...entries] : entries,
        )
        const area = shapeOf(shape).area(sizes, new Decimal(1))
        const told = shapeOf(shape).elasticities(sizes)
        Object.keys(sizes).forEach((name, at) => {
          const grown = { ...sizes, [name]: sizes[name]!.times(nudge.plus(1)) }
          const found = shapeOf(shape).area(grown, new Decimal(1)).div(area).minus(1).div(nudge).toNumber()
          expect(found).toBeCloseTo(told[at]!, 6)
        })
        expect(told.reduce((sum, one) => sum + one, 0)).toBeCloseTo(2, 10)
      }),
    )
  })

  it('whatever is typed as a list is read or refused, never a crash', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.array(fc.anything()), fc.stringMatching(/^[0-9 ;,./x-]{0,40}$/)),
        sent => {
          const bed = { ...toldBed(), shape: 'offsets', sizes: { spacing: '5', offsets: sent } }
          const reading = readTold({ beds: [bed] }, table)
          if (!reading.ok) {
            expect(reading.faults[0]!.field).toBe('beds.0.sizes.offsets')
            return
          }
          const { area } = bedQuantities(reading.job.beds[0]!, table)
          expect(area.isFinite() && area.gt(0)).toBe(true)
        },
      ),
      { numRuns: 500 },
    )
  })
})
