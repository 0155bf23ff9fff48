import { expect } from 'vitest'
import { readArea } from '../../../src/estimate/reading/areas.ts'
import { readDepth, readLength, readVolume } from '../../../src/estimate/reading/lengths.ts'
import type { MeasureReading, Understood } from '../../../src/estimate/reading/measure.ts'
import { unitSystem } from '../../../src/estimate/units/units.ts'
import { Decimal } from '../../../src/lib/decimal.ts'

const us = unitSystem('us')
const metric = unitSystem('metric')

/** What a box of a business in feet, or in metres, makes of a text. A pace is 2.5 ft, or 0.762 m. */
export const boxes = {
  feet: (typed: string) => readLength(typed, us, new Decimal('2.5')),
  metres: (typed: string) => readLength(typed, metric, new Decimal('0.762')),
  inches: (typed: string) => readDepth(typed, us),
  centimetres: (typed: string) => readDepth(typed, metric),
  'square feet': (typed: string) => readArea(typed, us),
  'square metres': (typed: string) => readArea(typed, metric),
  'cubic feet': (typed: string) => readVolume(typed, us),
  'cubic metres': (typed: string) => readVolume(typed, metric),
}

export type Box = keyof typeof boxes

/**
 * A table of spellings, a line each: the text, two spaces or more, and what it means in the box's unit, as '12.5' or
 * '151/12'; '22.5 ± 2.5' is a range by its middle and half its gap, '20 x 5' a pair, '~' before it a guess, '12.5 | 9 ± 3'
 * two readings, the likelier first; '! falls' why it is refused. A line that ends in 'common' is how people usually write
 * it: trade, drawings and school agree. The figures were worked out by hand.
 */
export function spellings(table: string): [typed: string, meaning: string][] {
  const lines = table.split('\n').filter(line => line.trim() !== '')
  return lines.map(line => line.trim().split(/ {2,}/) as [string, string])
}

/** Holds what a box makes of a text against what it means. */
export function expectMeaning(box: Box, typed: string, meaning: string): void {
  const reading = boxes[box](typed)
  const why = /^! (.+)$/.exec(meaning)?.[1]
  if (why) {
    expect(reading.ok ? reading.echo : reading.key).toBe(`fault.${why}`)
    return
  }
  const [likeliest, other] = meaning.split(' | ')
  expect(figuresOf(reading)).toEqual(expected(likeliest!))
  const { instead = [], echo } = reading as Understood
  expect([instead.length, echo.endsWith(' ?')]).toEqual(other ? [1, true] : [0, false])
  if (!other) return
  const again = boxes[box](instead[0]!)
  expect(figuresOf(again)).toEqual(expected(other))
  expect((again as Understood).instead).toEqual([])
}

const PLACES = 25

function figuresOf(reading: MeasureReading): Record<string, unknown> {
  if (!reading.ok) return { refused: reading.key }
  const { value, spread, second, about } = reading
  const exact = (figure: Decimal | null) => figure?.toDecimalPlaces(PLACES).toFixed() ?? null
  return { value: exact(value), gap: exact(spread?.times(2) ?? null), second: exact(second), about }
}

function expected(meaning: string): Record<string, unknown> {
  const [, guess, first, gap, second] = /^(~?)(\S+)(?: ± (\S+))?(?: x (\S+))?$/.exec(meaning)!
  const exact = (figure: string | undefined) =>
    figure === undefined ? null : fraction(figure).toDecimalPlaces(PLACES).toFixed()
  return { value: exact(first), gap: exact(gap), second: exact(second), about: guess === '~' }
}

function fraction(figure: string): Decimal {
  const [over, under = '1'] = figure.split('/')
  return new Decimal(over!).div(under)
}
