import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { methodOf, newestMethod } from '../../src/estimate/job/methods/all-methods.ts'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { reader1 } from '../../src/estimate/reading/readers/1/reader.ts'
import { type ShapeName, shapeOf } from '../../src/estimate/shapes/all-shapes.ts'
import type { FormError } from '../../src/estimate/shapes/shape.ts'
import { listed } from './generated.ts'
import { bedOf, jobOf, testTable, toldBed } from './jobs.ts'

const table = testTable()
const errors = (changes: Partial<BedTold>) => methodOf(2).errors(bedOf(changes), table)

describe('the errors of a bed, by hand', () => {
  it('are those of measuring, of form and of what is planted', () => {
    // By eye σ = 0.14 with half of the variance shared: c = 2 × 0.14 × √½; o² = 2 × 0.14² ÷ 2 + 0.04² + (0.08 ÷ 0.7)².
    const { shared, own, ownArea } = errors({ measuredBy: 'eye', planted: 'full' })
    expect(shared).toBeCloseTo(0.19799, 5)
    expect(own).toBeCloseTo(Math.sqrt(0.0196 + 0.0016 + 0.0130612), 6)
    expect(ownArea).toBeCloseTo(Math.sqrt(0.0196 + 0.0016), 6)
  })

  it('of an edge are its own: without form and plants, by how it follows the sizes', () => {
    // 20 × 5 ft: 0.8 and 0.2 of the edge follow length and width. c = 0.14 × √½; o² = (0.64 + 0.04) × 0.14² ÷ 2.
    const { edge, ownEdge } = errors({ measuredBy: 'eye', planted: 'full' })
    expect(edge).toBeCloseTo(0.0989949, 6)
    expect(ownEdge).toBeCloseTo(Math.sqrt(0.68 * 0.0098), 6)
  })

  it('of an edge with some left out are those of the whole outline', () => {
    // 25 of 50 ft are left: the same feet of error on half as many.
    expect(errors({ measuredBy: 'eye', noEdge: '25 ft' }).edge).toBeCloseTo(2 * 0.0989949, 6)
  })

  it('of a volume are five in a hundred, and a guess besides', () => {
    const sizes = { volume: '50 cu ft' }
    expect(errors({ shape: 'volume', sizes, measuredBy: 'eye', planted: 'full' })).toMatchObject({
      shared: 0,
      own: 0.05,
    })
    expect(errors({ shape: 'volume', sizes: { volume: 'about 50 cu ft' } }).own).toBeCloseTo(
      Math.hypot(0.05, 0.14),
      9,
    )
  })

  it.each<[ShapeName, Record<string, string>, FormError]>([
    ['curvy', { length: '20', width: '5' }, 'curvy'],
    ['rectangle', { length: '20', width: '5' }, 'plain'],
    ['area', { area: '90' }, 'plain'],
    ['offsets', { spacing: '2', offsets: '1 2 3 2' }, 0.1],
    ['offsets', { spacing: '2', offsets: '3 '.repeat(20) }, 0.01],
    ['uneven-offsets', { spacings: '2 3 4', offsets: '1 2 3 2' }, 0.1],
    ['offsets', { spacing: '2', offsets: '1 2 3' }, 0.225],
    ['offsets', { spacing: '9', offsets: '5 6' }, 'plain'],
    ['trapezoid', { base: '5', top: '6', height: '9' }, 'plain'],
    ['radii', { radii: '9 '.repeat(8) }, 0.09375],
    ['radii', { radii: '9 '.repeat(30) }, 0.01],
  ])('of form %s %j', (shape, told, form) => {
    const sizes = Object.fromEntries(
      Object.entries(bedOf({ shape, sizes: told }).sizes).map(([name, { value }]) => [name, value]),
    )
    const found = shapeOf(shape).formError(sizes)
    if (typeof form === 'string') expect(found).toBe(form)
    else expect(found).toBeCloseTo(form, 9)
  })

  it('of form and of what is planted are as the table says, by hand', () => {
    const changed = {
      ...table,
      forms: { plain: '0.03', curvy: '0.2' },
      plantedGive: { open: '0.01', half: '0.12', full: '0.08' },
    }
    const own = (changes: Partial<BedTold>) => methodOf(3).errors(bedOf(changes), changed).own
    // By tape σ = 0.02, none of it shared: o² = 2 × 0.02² + 0.03² + (0.12 ÷ 0.85)², and of a curvy one 0.2² for 0.03².
    expect(own({ planted: 'half' })).toBeCloseTo(Math.sqrt(0.0008 + 0.0009 + (0.12 / 0.85) ** 2), 9)
    expect(own({ shape: 'curvy' })).toBeCloseTo(Math.sqrt(0.0008 + 0.04 + 0.0001), 9)
  })

  it('two widths are as sure as the trapezoid that they tell', () => {
    const told = { measuredBy: 'eye', planted: 'half' } as const
    const along = bedOf({ shape: 'offsets', sizes: { spacing: '9', offsets: '5 6' }, ...told })
    const uneven = bedOf({ shape: 'uneven-offsets', sizes: { spacings: '9', offsets: '5 6' }, ...told })
    const trapezoid = bedOf({ shape: 'trapezoid', sizes: { base: '5', top: '6', height: '9' }, ...told })
    for (const bed of [along, uneven]) {
      expect(bedQuantities(bed, table).area.eq(bedQuantities(trapezoid, table).area)).toBe(true)
      const [one, other] = [newestMethod.errors(bed, table), newestMethod.errors(trapezoid, table)]
      expect(one.shared).toBeCloseTo(other.shared, 9)
      expect(one.own).toBeCloseTo(other.own, 9)
    }
  })

  it('of the edge of a list are those of the edge itself', () => {
    fc.assert(
      fc.property(listed, ({ shape, sizes }) => {
        const told = Object.fromEntries(
          Object.entries(bedOf({ shape, sizes }).sizes).map(([name, { value }]) => [name, value]),
        )
        const { edge, edgeElasticities } = shapeOf(shape as ShapeName)
        const found = Object.entries(told).map(([name, value]) => {
          const grown = edge({ ...told, [name]: value.times('1.0000001') })!
          return grown.div(edge(told)!).minus(1).times(10_000_000).toNumber()
        })
        for (const [at, one] of edgeElasticities!(told).entries()) expect(one).toBeCloseTo(found[at]!, 4)
      }),
      { numRuns: 40 },
    )
  })
})

describe('what is too uncertain is refused beside the field', () => {
  const refused = (changes: Partial<BedTold>) => {
    const reading = readTold({ beds: [toldBed(changes)] }, table)
    return reading.ok ? [] : reading.faults.map(({ field, key }) => `${field} ${key}`)
  }

  it.each<[Partial<BedTold>, string[]]>([
    [
      { shape: 'ring', sizes: { outer: '20', inner: '16' }, measuredBy: 'eye' },
      ['beds.0.sizes.inner fault.ring-narrow'],
    ],
    // The same ring, and the same L, told so that small errors stay small.
    [{ shape: 'tree-ring', sizes: { inner: '16', band: '2' }, measuredBy: 'eye' }, []],
    [
      {
        shape: 'two-arms',
        sizes: { length: '20', width: '3', armLength: '17', armWidth: '3' },
        measuredBy: 'eye',
      },
      [],
    ],
    [{ shape: 'ring', sizes: { outer: '20', inner: '16' }, measuredBy: 'tape' }, []],
    [
      { shape: 'two-arms', sizes: { length: '5', width: '3', armLength: '9', armWidth: '5.1' } },
      ['beds.0.sizes.armWidth fault.arm-width'],
    ],
    [{ sizes: { length: '1-60', width: '5' }, planted: 'full' }, ['beds.0.sizes.length fault.too-unsure']],
    [
      {
        shape: 'l-shape',
        sizes: { length: '20', width: '20', cutLength: '17', cutWidth: '17' },
        measuredBy: 'eye',
      },
      ['beds.0.sizes.cutWidth fault.l-shape-narrow'],
    ],
    [
      { shape: 'offsets', sizes: { spacing: '1-17', offsets: '5 6 5' }, planted: 'full' },
      ['beds.0.sizes.offsets fault.offsets-more'],
    ],
    [{ shape: 'radii', sizes: { radii: '9 '.repeat(7) } }, ['beds.0.sizes.radii fault.radii-few']],
    [
      { shape: 'sides', sizes: { a: '3', b: '4', c: '5' }, measuredBy: 'eye' },
      ['beds.0.measuredBy fault.sides-tape'],
    ],
    [{ shape: 'sides', sizes: { a: '3', b: 'about 4', c: '5' } }, ['beds.0.sizes.b fault.sides-tape']],
    // As tall as 0.18 of its longest side.
    [{ shape: 'sides', sizes: { a: '5.1', b: '28', c: '27.9' } }, ['beds.0.sizes.b fault.sides-flat']],
    [{ shape: 'sides', sizes: { a: '8', b: '30', c: '30' } }, []],
  ])('%j', (changes, faults) => {
    expect(refused(changes)).toEqual(faults)
  })

  it('where a table says that plants take up nearly all of a bed, beside how full it is', () => {
    const packed = testTable({ planted: { open: '0', half: '0.15', full: '0.9' } })
    const reading = readTold({ beds: [toldBed({ planted: 'full' })] }, packed)
    expect(!reading.ok && reading.faults).toEqual([
      { field: 'beds.0.planted', key: 'fault.planted-unsure', params: {} },
    ])
  })

  it('but what was stored before it is read as it was', () => {
    const flat = toldBed({ shape: 'sides', sizes: { a: '5.1', b: '28', c: '27.9' }, measuredBy: 'eye' })
    const ring = toldBed({ shape: 'ring', sizes: { outer: '20', inner: '16' }, measuredBy: 'eye' })
    expect(readTold({ beds: [flat, ring] }, table, { reader: reader1 }).ok).toBe(true)
  })
})

it('the first method gives what it gave, beside the second', () => {
  const one = { ...table, step: '0.01' }
  const job = jobOf([{ measuredBy: 'eye', planted: 'full' }], one, ['edging'])
  const [first, second] = [1, 2].map(method => workOutBallpark(job, one, { method }))
  expect([first!.method, second!.method, newestMethod.number]).toEqual([1, 2, 3])
  expect(second!.range.likely).toBe(first!.range.likely)
  expect(Number(second!.range.high)).toBeGreaterThan(Number(first!.range.high))
  // Half of the shared error of its area, and none of its own.
  const errors = methodOf(1).errors(job.beds[0]!, one)
  expect(errors.edge).toBe(errors.shared / 2)
  expect(errors.ownEdge).toBe(0)
})
