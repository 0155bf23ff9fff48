import { unit } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { readArea } from '../../src/estimate/reading/areas.ts'
import { readDepth, readLength, readVolume } from '../../src/estimate/reading/lengths.ts'
import type { MeasureReading } from '../../src/estimate/reading/measure.ts'
import { unitSystem } from '../../src/estimate/units/units.ts'
import { Decimal } from '../../src/lib/decimal.ts'

const us = unitSystem('us')
const metric = unitSystem('metric')
const figure = (reading: MeasureReading) => (reading.ok ? reading.value.toNumber() : Number.NaN)
const pace = new Decimal(1)

describe('units agree with mathjs', () => {
  it.each(['ft', 'in', 'yd', 'm', 'cm', 'mm'])('lengths and depths in %s', name => {
    const typed = `37.5 ${name}`
    const exact = unit(37.5, name === 'yd' ? 'yard' : name === 'in' ? 'inch' : name)
    expect(figure(readLength(typed, us, pace))).toBeCloseTo(exact.toNumber('ft'), 9)
    expect(figure(readLength(typed, metric, pace))).toBeCloseTo(exact.toNumber('m'), 9)
    const shallow = unit(0.375, name === 'yd' ? 'yard' : name === 'in' ? 'inch' : name)
    expect(figure(readDepth(`0.375 ${name}`, us))).toBeCloseTo(shallow.toNumber('inch'), 9)
    expect(figure(readDepth(`0.375 ${name}`, metric))).toBeCloseTo(shallow.toNumber('cm'), 9)
  })

  it.each([
    ['sq ft', 'sqft'],
    ['sq yd', 'sqyd'],
    ['m2', 'm2'],
    ['acre', 'acre'],
  ])('areas in %s', (typed, name) => {
    // mathjs rounds its acre to 4,046.86 m².
    const places = name === 'acre' ? 5 : 9
    const exact = unit(3.25, name)
    expect(figure(readArea(`3.25 ${typed}`, us)) / exact.toNumber('sqft')).toBeCloseTo(1, places)
    expect(figure(readArea(`3.25 ${typed}`, metric)) / exact.toNumber('m2')).toBeCloseTo(1, places)
  })

  it.each([
    ['cubic feet', 'cuft'],
    ['yd', 'yd^3'],
    ['m3', 'm3'],
    ['l', 'litre'],
  ])('volumes in %s', (typed, name) => {
    const exact = unit(32.5, name)
    expect(figure(readVolume(`32.5 ${typed}`, us)) / exact.toNumber('ft^3')).toBeCloseTo(1, 9)
    expect(figure(readVolume(`32.5 ${typed}`, metric)) / exact.toNumber('m3')).toBeCloseTo(1, 9)
  })

  it('the systems themselves', () => {
    expect(us.volumesPerBulk.toNumber()).toBeCloseTo(unit(1, 'yd^3').toNumber('ft^3'), 12)
    expect(us.depthsPerLength.toNumber()).toBeCloseTo(unit(1, 'ft').toNumber('inch'), 12)
    expect(metric.depthsPerLength.toNumber()).toBeCloseTo(unit(1, 'm').toNumber('cm'), 12)
  })
})
