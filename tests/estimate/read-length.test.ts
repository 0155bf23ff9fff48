import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readLength } from '../../src/estimate/reading/lengths.ts'
import type { MeasureReading } from '../../src/estimate/reading/measure.ts'
import { unitSystem } from '../../src/estimate/units/units.ts'
import { Decimal } from '../../src/lib/decimal.ts'

const us = unitSystem('us')
const metric = unitSystem('metric')
const pace = new Decimal('2.5')
const feet = (typed: string) => readLength(typed, us, pace)
const metres = (typed: string) => readLength(typed, metric, new Decimal('0.762'))

function understood(reading: MeasureReading) {
  if (!reading.ok) throw new Error(reading.key)
  return reading
}

describe('a length as people write it', () => {
  it.each([
    ['12', 12],
    ['12.5', 12.5],
    ['12 1/2', 12.5],
    ['12-1/2', 12.5],
    ['12½', 12.5],
    ['½', 0.5],
    ['.5', 0.5],
    ["12'6", 12.5],
    [`12' 6 1/2"`, 12 + 6.5 / 12],
    [`12'-6"`, 12.5],
    ['12ft 6in', 12.5],
    ['12 feet, 6 inches', 12.5],
    ['12 ft and 6 in', 12.5],
    ['12 ft. 6 in.', 12.5],
    ['150"', 12.5],
    ["150''", 12.5],
    ['4 yd', 12],
    ['4 yards 2 ft', 14],
    ['1,200', 1200],
    ['1,200.5', 1200.5],
    ['12,5', 12.5],
    ['40 paces', 100],
    ['40 pasos', 100],
    ['5 pies 6 pulgadas', 5.5],
    ['  12   ft ', 12],
    ['12’ 6”', 12.5],
    ['12′ 6″', 12.5],
    ['12 ft', 12],
    ['12 FT', 12],
    ['3.048 m', 10],
    ['304.8cm', 10],
    ['3,048 mm', 10],
    ['3,8 m', 3.8 / 0.3048],
  ])('reads %s', (typed, expected) => {
    expect(understood(feet(typed)).value.toNumber()).toBeCloseTo(expected, 10)
  })

  it.each([
    ['3.8', 3.8],
    ['3,8 m', 3.8],
    ['380cm', 3.8],
    ['1 m 20', 1.2],
    ['12 ft', 3.6576],
    ['3,8 metros', 3.8],
    ['20 paces', 15.24],
  ])('reads %s in a metric business', (typed, expected) => {
    expect(understood(metres(typed)).value.toNumber()).toBeCloseTo(expected, 12)
  })

  it.each([
    'about 20',
    '~20',
    '≈ 20',
    'approx. 20',
    '20 ft or so',
    '20ish',
    '20?',
    'unos 20 pies',
    'aprox 20',
  ])('takes %s as no more than a guess', typed => {
    const reading = understood(feet(typed))
    expect([reading.value.toNumber(), reading.about]).toEqual([20, true])
  })

  it.each(['20-25', '20 – 25 ft', '20 to 25', 'between 20 and 25', 'entre 20 y 25', '20 ft to 25 ft'])(
    'takes the middle of %s, half the gap as two standard errors',
    typed => {
      const reading = understood(feet(typed))
      expect([reading.value.toNumber(), reading.spread?.toNumber()]).toEqual([22.5, 1.25])
    },
  )

  it.each([
    ['20x5', 20, 5],
    ['20 × 5 ft', 20, 5],
    ["20' by 5'", 20, 5],
    ['20ftx5ft', 20, 5],
    ['20 por 5 pies', 20, 5],
    ['6.096x1.524 m', 20, 5],
  ])('finds both sizes in %s', (typed, first, second) => {
    const reading = understood(feet(typed))
    expect(reading.value.toNumber()).toBeCloseTo(first, 10)
    expect(reading.second?.toNumber()).toBeCloseTo(second, 10)
  })

  it.each([
    ['12 1/2', '= 12 ft 6 in'],
    ['8"', '= 8 in'],
    ['about 20', '≈ 20 ft'],
    ['20-25', '= 22 ft 6 in ± 2 ft 6 in'],
    ['20x5', '= 20 ft × 5 ft'],
    ['3.8 m', '= 12 ft 5.6 in'],
    ['11.999', '= 12 ft'],
    ['1,200', '= 1,200 ft'],
    ['5.6', '= 5 ft 7.2 in ?'],
    [`12'-6`, '= 12 ft 6 in ?'],
  ])('echoes %s as %s', (typed, echo) => {
    expect(understood(feet(typed)).echo).toBe(echo)
  })

  it('marks what could mean two things', () => {
    const ambiguous = (reading: MeasureReading) => understood(reading).ambiguous
    expect(['5.6', '5.11', `5'-6`].map(typed => ambiguous(feet(typed)))).toEqual([true, true, true])
    expect(['5.5', '5.25', '5.6 m', `5'-6"`].map(typed => ambiguous(feet(typed)))).toEqual([
      false,
      false,
      false,
      false,
    ])
    expect(ambiguous(metres('1,200'))).toBe(true)
  })
})

describe('a length that can’t be read', () => {
  it.each(['abc', 'x', '12..5', '1/0', '20 30', '20 x 5 x 3', '12 ft 6 m 3', '1e5', '--', '5 kg', "'", '?'])(
    'refuses %s',
    typed => {
      expect(feet(typed)).toMatchObject({ ok: false, key: 'fault.length-unreadable' })
    },
  )

  it.each([
    ['', 'fault.length-missing'],
    ['   ', 'fault.length-missing'],
    ['0', 'fault.length-not-positive'],
    ['-5', 'fault.length-not-positive'],
    ['20x0', 'fault.length-not-positive'],
    ['200000', 'fault.length-absurd'],
    ['9'.repeat(201), 'fault.too-long'],
  ])('says why it refuses %s', (typed, key) => {
    expect(feet(typed)).toMatchObject({ ok: false, key })
  })

  it('only asks about a 900 ft bed, elsewhere', () => {
    expect(understood(feet('900')).value.toNumber()).toBe(900)
  })
})

it('never throws and never gives anything but a figure above zero, whatever is typed', () => {
  const pieces = fc.constantFrom(
    ...[
      '1',
      '2',
      '12',
      '0',
      ' ',
      '.',
      ',',
      '/',
      '-',
      "'",
      '"',
      'ft',
      'in',
      'm',
      'cm',
      'x',
      'about',
      '½',
      'to',
      '~',
    ],
  )
  const typed = fc.oneof(
    fc.string({ maxLength: 210, unit: 'grapheme' }),
    fc.array(pieces, { maxLength: 12 }).map(parts => parts.join('')),
  )
  fc.assert(
    fc.property(typed, text => {
      for (const reading of [feet(text), metres(text)]) {
        if (!reading.ok) continue
        const figures = [reading.value, reading.second ?? reading.value]
        expect(figures.every(figure => figure.isFinite() && figure.gt(0))).toBe(true)
        expect(reading.spread?.isFinite() ?? true).toBe(true)
      }
    }),
    { numRuns: 2000 },
  )
})

it('reads back any feet and inches', () => {
  fc.assert(
    fc.property(fc.nat(500), fc.nat(11), fc.nat(7), (whole, inches, eighths) => {
      fc.pre(whole + inches + eighths > 0)
      const reading = understood(feet(`${whole}' ${inches} ${eighths}/8"`))
      expect(reading.value.toNumber()).toBeCloseTo(whole + (inches + eighths / 8) / 12, 10)
    }),
  )
})
