import { describe, expect, it } from 'vitest'
import { readArea } from '../../src/estimate/reading/areas.ts'
import { readDepth, readVolume } from '../../src/estimate/reading/lengths.ts'
import type { MeasureReading } from '../../src/estimate/reading/measure.ts'
import { unitSystem } from '../../src/estimate/units/units.ts'
import { zero } from '../../src/lib/decimal.ts'

const us = unitSystem('us')
const metric = unitSystem('metric')
const figure = (reading: MeasureReading) => (reading.ok ? reading.value.toNumber() : Number.NaN)
const echo = (reading: MeasureReading) => (reading.ok ? reading.echo : reading.key)

describe('a depth', () => {
  it.each([
    ['3', 3],
    ['3 in', 3],
    ['3"', 3],
    ['2 1/2', 2.5],
    ['2-3', 2.5],
    ['7.62 cm', 3],
    ['0.25 ft', 3],
  ])('reads %s in inches', (typed, expected) => {
    expect(figure(readDepth(typed, us))).toBeCloseTo(expected, 10)
  })

  it('reads centimetres in a metric business', () => {
    expect(['7.5', '7,5 cm', '75 mm'].map(typed => figure(readDepth(typed, metric)))).toEqual([7.5, 7.5, 7.5])
  })

  it('refuses none at all, unless it says what lies there', () => {
    expect(echo(readDepth('0', us))).toBe('fault.depth-not-positive')
    expect(figure(readDepth('0', us, zero))).toBe(0)
  })

  it('refuses what is deeper than any bed', () => {
    expect(echo(readDepth('49', us))).toBe('fault.depth-absurd')
    expect(echo(readDepth('121', metric))).toBe('fault.depth-absurd')
    expect(figure(readDepth('48', us))).toBe(48)
  })
})

describe('an area', () => {
  it.each([
    ['100', 100],
    ['100 sq ft', 100],
    ['100 sq. ft.', 100],
    ['100 square feet', 100],
    ['100 ft2', 100],
    ['100 ft²', 100],
    ['100 pies cuadrados', 100],
    ['1,200 sqft', 1200],
    ['10 sq yd', 90],
    ['9.290304 m²', 100],
    ['0.1 acre', 4356],
  ])('reads %s in square feet', (typed, expected) => {
    expect(figure(readArea(typed, us))).toBeCloseTo(expected, 8)
  })

  it('reads square metres in a metric business', () => {
    expect(
      ['10', '10 m²', '10 sqm', '10 metros cuadrados'].map(typed => figure(readArea(typed, metric))),
    ).toEqual([10, 10, 10, 10])
  })

  it('refuses a length', () => {
    expect(echo(readArea('100 ft', us))).toBe('fault.area-unreadable')
  })
})

describe('a volume', () => {
  it.each([
    ['50 ft3', 50],
    ['50 cubic feet', 50],
    ['2 yd', 54],
    ['2 yards', 54],
    ['2 cubic yards', 54],
    ['2 cu. yd.', 54],
    ['2 yardas cúbicas', 54],
    ['28.316846592 l', 1],
    ['0.764554857984 m³', 27],
  ])('reads %s in cubic feet', (typed, expected) => {
    expect(figure(readVolume(typed, us))).toBeCloseTo(expected, 10)
  })

  it('asks what a bare number is in', () => {
    expect(readVolume('2', us)).toMatchObject({ key: 'fault.volume-unit', instead: ['2 yd³', '2 ft³'] })
    expect(readVolume('2', metric)).toMatchObject({ key: 'fault.volume-unit', instead: ['2 m³', '2 l'] })
  })
})
