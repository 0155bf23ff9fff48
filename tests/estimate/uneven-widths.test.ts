import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { outlineOf } from '../../src/estimate/job/outline.ts'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { reader1 } from '../../src/estimate/reading/readers/1/reader.ts'
import { shapeOf } from '../../src/estimate/shapes/all-shapes.ts'
import { entryOf } from '../../src/estimate/shapes/sizes.ts'
import { recallJob } from '../../src/estimate/understood/recall.ts'
import { recordJob } from '../../src/estimate/understood/record.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { bedOf, jobOf, testTable, toldBed } from './jobs.ts'

const table = testTable()
const figures = (shape: string, sizes: Record<string, string>) =>
  bedQuantities(bedOf({ shape, sizes }), table)
const tenths = fc.integer({ min: 5, max: 300 }).map(n => new Decimal(n).div(10))

describe('by widths at uneven distances', () => {
  const uneven = (spacings: string, offsets: string) => figures('uneven-offsets', { spacings, offsets })

  // By hand: (10 ÷ 3)(2 + 4·6 + 4) = 100; of 6 and 3 ft (9 ÷ 6)((2 − 1/2)·4 + (81/18)·8 + (2 − 2)·9) = 63; (3 ÷ 3)(9 + 4·7 + 1) = 38.
  it('lays a parabola through three widths at a time', () => {
    expect(uneven('10 10 6 3 3 3', '2 6 4 8 9 7 1').area.toNumber()).toBe(201)
    // A last strip by itself is a trapezoid, (1 + 5) ÷ 2 · 4.
    expect(uneven('10 10 6 3 3 3 4', '2 6 4 8 9 7 1 5').area.toNumber()).toBe(213)
  })

  it('is exact for a parabola wherever it is measured', () => {
    // y = x² from 0 to 3 has the area 9.
    for (const at of ['1', '1.5', '1.9', '2']) {
      const rest = String(3 - Number(at))
      expect(uneven(`${at} ${rest}`, `0 ${Number(at) ** 2} 9`).area.toNumber()).toBeCloseTo(9, 10)
    }
  })

  it('hardly changes with a distance', () => {
    // Two strips of 5 ft up to 10 ft and down again: (5 ÷ 3)(4 · 10).
    const [even, nearly] = [uneven('5 5', '0 10 0').area, uneven('5 5.01', '0 10 0').area]
    expect(even.toNumber()).toBeCloseTo(200 / 3, 10)
    expect(nearly.minus(even).abs().toNumber()).toBeLessThan(0.1)
    // Nor where one strip gets longer than twice the other.
    const [twice, more] = [uneven('5 10', '8 2 4').area, uneven('5 10.01', '8 2 4').area]
    expect(more.minus(twice).abs().toNumber()).toBeLessThan(0.1)
  })

  it('a wider bed is never smaller, however uneven the distances are', () => {
    const feet = (most: number) => fc.integer({ min: 1, max: most }).map(n => n / 10)
    const lists = fc
      .array(feet(400), { minLength: 2, maxLength: 7 })
      .chain(list =>
        fc.tuple(
          fc.constant(list),
          fc.array(feet(200), { minLength: list.length + 1, maxLength: list.length + 1 }),
        ),
      )
    fc.assert(
      fc.property(lists, fc.nat(), ([spacings, widths], which) => {
        const at = which % widths.length
        const area = (of: number[]) => uneven(spacings.join(' '), of.join(' ')).area
        expect(area(widths.with(at, widths[at]! + 1)).gte(area(widths))).toBe(true)
      }),
    )
  })

  it('what was understood as it was before keeps its own rule', () => {
    const sizes = { spacings: '10 10 6 3 3 3', offsets: '2 6 4 8 9 7 1' }
    const bed = bedOf({ shape: 'uneven-offsets', sizes })
    expect(bed.shape).toBe('uneven-widths')
    // Simpson over equal neighbors alone: 100; a trapezoid of 6 ft, 36; (3 ÷ 3)(8 + 4·9 + 7) = 51; a trapezoid of 3 ft, 12.
    const before = recordJob({ beds: [{ ...bed, shape: 'uneven-offsets' }], extras: [], postcode: '' }, 'us')
    const recalled = recallJob(before, table)
    expect(recalled.ok && bedQuantities(recalled.job.beds[0]!, table).area.toNumber()).toBe(199)
    const reading = readTold({ beds: [toldBed({ shape: 'uneven-offsets', sizes })] }, table, {
      reader: reader1,
    })
    expect(reading.ok && bedQuantities(reading.job.beds[0]!, table).area.toNumber()).toBe(199)
    const now = recallJob(recordJob(jobOf([{ shape: 'uneven-offsets', sizes }]), 'us'), table)
    expect(now.ok && bedQuantities(now.job.beds[0]!, table).area.toNumber()).toBe(201)
  })

  it('nobody tells the shape that it is understood as by its name', () => {
    const bed = toldBed({ shape: 'uneven-widths', sizes: { spacings: '4 4', offsets: '1 2 1' } })
    const reading = readTold({ beds: [bed] }, table)
    expect(reading.ok ? [] : reading.faults.map(({ key }) => key)).toEqual(['fault.shape'])
  })

  it('has the edge of its corners', () => {
    // 3-4-5 triangles at either end of a 2 ft strip: 5 + 2 + 5 beside the line, 8 along it.
    expect(uneven('3 2 3', '0 4 4 0').edge!.toNumber()).toBe(20)
  })

  it('distances told in other units are as equal', () => {
    expect(
      uneven('10 ft; 120 in; 3.048 m; 10', '0 5 8 5 0').area.eq(uneven('10 10 10 10', '0 5 8 5 0').area),
    ).toBe(true)
  })

  it('is drawn along the line', () => {
    const sizes = { spacings: '10 5 15', offsets: '0 4 2 0' }
    expect(outlineOf(bedOf({ shape: 'uneven-offsets', sizes }))!).toMatchObject({
      width: 30,
      height: 4,
      path: 'M0 4L0 4L10 0L15 2L30 4L30 4Z',
    })
  })

  it('at equal distances gives exactly what one spacing gives', () => {
    const spacing = fc.integer({ min: 1, max: 300 }).map(n => (n / 10).toFixed(1))
    const widths = fc.array(
      fc.integer({ min: 1, max: 300 }).map(n => (n / 10).toFixed(1)),
      { minLength: 3, maxLength: 20 },
    )
    fc.assert(
      fc.property(spacing, widths, (one, list) => {
        const spacings = list.slice(1).map(() => one)
        const even = bedOf({ shape: 'offsets', sizes: { spacing: one, offsets: list.join(' ') } })
        const other = bedOf({
          shape: 'uneven-offsets',
          sizes: { spacings: spacings.join(' '), offsets: list.join(' ') },
        })
        const [first, second] = [bedQuantities(even, table), bedQuantities(other, table)]
        expect(second.area.eq(first.area)).toBe(true)
        expect(second.edge!.eq(first.edge!)).toBe(true)
        expect(outlineOf(other)!.path).toBe(outlineOf(even)!.path)
      }),
    )
  })
})

describe('elasticities are those of the area, and sum to two', () => {
  it('at uneven distances too, by parabolas', () => {
    const nudge = new Decimal('1e-9')
    const lists = fc
      .array(fc.constantFrom(2, 3, 7), { minLength: 1, maxLength: 12 })
      .chain(list =>
        fc.tuple(
          fc.constant(list),
          fc.array(tenths, { minLength: list.length + 1, maxLength: list.length + 1 }),
        ),
      )
    fc.assert(
      fc.property(lists, fc.nat(), ([spacings, widths], which) => {
        const sizes: Record<string, Decimal> = Object.fromEntries([
          ...spacings.map((one, at) => [entryOf('spacings', at), new Decimal(one)] as const),
          ...widths.map((width, at) => [entryOf('offsets', at), width] as const),
        ])
        const { area, elasticities } = shapeOf('uneven-widths')
        const told = elasticities(sizes)
        const at = which % told.length
        const name = Object.keys(sizes)[at]!
        const grown = area({ ...sizes, [name]: sizes[name]!.times(nudge.plus(1)) }, new Decimal(1))
        const found = grown
          .div(area(sizes, new Decimal(1)))
          .minus(1)
          .div(nudge)
          .toNumber()
        expect(found).toBeCloseTo(told[at]!, 6)
        expect(told.reduce((sum, one) => sum + one, 0)).toBeCloseTo(2, 6)
      }),
    )
  })

  it('at uneven distances as they were understood before, where strips alike grow together', () => {
    const nudge = new Decimal('1e-9')
    const lists = fc
      .array(fc.constantFrom(2, 3, 7), { minLength: 1, maxLength: 12 })
      .chain(list =>
        fc.tuple(
          fc.constant(list),
          fc.array(tenths, { minLength: list.length + 1, maxLength: list.length + 1 }),
        ),
      )
    fc.assert(
      fc.property(lists, fc.nat(), ([spacings, widths], which) => {
        const entries = spacings.map((one, at) => [entryOf('spacings', at), new Decimal(one)] as const)
        const sizes: Record<string, Decimal> = Object.fromEntries([
          ...entries,
          ...widths.map((width, at) => [entryOf('offsets', at), width] as const),
        ])
        const told = shapeOf('uneven-offsets').elasticities(sizes)
        const names = Object.keys(sizes)
        const picked = names[which % names.length]!
        const nudged = names.filter(
          name =>
            name === picked ||
            (picked.startsWith('s') && name.startsWith('s') && sizes[name]!.eq(sizes[picked]!)),
        )
        const area = (of: typeof sizes) => shapeOf('uneven-offsets').area(of, new Decimal(1))
        const grown = Object.fromEntries(nudged.map(name => [name, sizes[name]!.times(nudge.plus(1))]))
        const found = area({ ...sizes, ...grown })
          .div(area(sizes))
          .minus(1)
          .div(nudge)
          .toNumber()
        const expected = nudged.reduce((sum, name) => sum + told[names.indexOf(name)]!, 0)
        expect(found).toBeCloseTo(expected, 6)
        expect(told.reduce((sum, one) => sum + one, 0)).toBeCloseTo(2, 10)
      }),
    )
  })
})
