import { describe, expect, it } from 'vitest'
import { readArea } from '../../src/estimate/reading/areas.ts'
import { readDepth, readLength, readVolume } from '../../src/estimate/reading/lengths.ts'
import type { MeasureReading } from '../../src/estimate/reading/measure.ts'
import { unitSystem } from '../../src/estimate/units/units.ts'
import { Decimal, zero } from '../../src/lib/decimal.ts'

const us = unitSystem('us')
const metric = unitSystem('metric')
const feet = (typed: string) => readLength(typed, us, new Decimal('2.5'))
const metres = (typed: string) => readLength(typed, metric, new Decimal('0.762'))
const key = (reading: MeasureReading) => (reading.ok ? reading.echo : reading.key)

describe('a raised figure is a power, never a digit', () => {
  it.each(['12²', '20 ft²', '12 ft³', '12¹'])('%s is no length', typed => {
    expect([feet(typed).ok, metres(typed).ok]).toEqual([false, false])
  })

  it('nor a depth', () => {
    expect(key(readDepth('3²', us))).toBe('fault.depth-unreadable')
  })

  it.each(['12 m²', '12 pies²'])('and %s is an area', typed => {
    expect([key(metres(typed)), readArea(typed, us).ok]).toEqual(['fault.is-area', true])
  })

  it.each(['2 yd³', '2 m³', '2 pies³'])('and %s is a volume', typed => {
    expect(readVolume(typed, us).ok).toBe(true)
  })
})

describe('one figure is asked for, so two are not taken for one', () => {
  it('in a depth, or in what lies there', () => {
    expect([key(readDepth('3x3', us)), key(readDepth('1 by 2', us, zero))]).toEqual(
      Array(2).fill('fault.depth-unreadable'),
    )
  })

  it('in an area or a volume', () => {
    expect([key(readArea('20x5', us)), key(readVolume('2x3', us))]).toEqual([
      'fault.area-unreadable',
      'fault.volume-unreadable',
    ])
  })
})

describe('a fraction joined by "and" belongs to its whole number', () => {
  it.each(['5 and 1/2', '5 & 1/2', '5 y 1/2', '5 and ½', '5 and 1/2 ft'])('%s is five and a half', typed => {
    const reading = feet(typed)
    expect(reading.ok && [reading.value.toNumber(), reading.spread]).toEqual([5.5, null])
  })

  it('and two whole numbers are still a range', () => {
    expect(key(feet('between 20 and 25'))).toMatch(/^= 22 ft 6 in ±/)
  })

  it('as are two fractions', () => {
    expect(key(feet('between 1/2 and 3/4'))).toMatch(/^= 7.5 in ±/)
  })
})

// A twelfth foot of inches, or a thousand as the Swiss write it.
it.each([["12'15"], ['1’200'], ['1 yd 5']])('%s is more than follows a unit, and refused', typed => {
  expect(key(feet(typed))).toBe('fault.length-unreadable')
})

it.each([["12'6"], ["12' 11"], ['1 yd 2']])('%s is read without a question', typed => {
  expect(key(feet(typed))).not.toMatch(/\?$/)
})
