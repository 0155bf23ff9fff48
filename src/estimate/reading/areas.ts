import { Decimal, two } from '../../lib/decimal.ts'
import { showArea, showLength } from '../units/show.ts'
import type { UnitSystem } from '../units/units.ts'
import { type Dialect, dialectOf, tiny } from './dialect.ts'
import { type MeasureReading, readMeasure } from './measure.ts'
import { LONGEST_TYPED, scan } from './typed.ts'
import { areaUnits, depthUnits } from './unit-words.ts'

/** Reads an area in ft²|m²: 100, 100 sq ft, 10 m². '20 ft square' is 20 by 20 or 20 square feet, and so has both. */
export function readArea(typed: string, system: UnitSystem): MeasureReading {
  const dialect: Dialect = {
    ...dialectOf('area', areaUnits, areaUnit(system), system),
    least: tiny,
    most: new Decimal(10_000_000),
    show: value => showArea(value, system),
  }
  const plain = readMeasure(typed, dialect)
  const { side, isSquare } = squareIn(typed)
  const square = side === '' ? null : squareOf(side, system)
  if (square === null) return plain
  const squared = readMeasure(square, dialect)
  if (!squared.ok) return plain
  const flat = `${side}²`
  const other = readMeasure(flat, dialect)
  if (!other.ok) return squared
  const [likelier, instead] = isSquare ? [squared, flat] : [other, square]
  return { ...likelier, ambiguous: true, instead: [instead], echo: `${likelier.echo} ?` }
}

function areaUnit(system: UnitSystem): string {
  return system.name === 'us' ? 'ft²' : 'm²'
}

// The side of what ends in 'square', which says a square, or in 'sq' or 'squared', which is rather a unit.
function squareIn(typed: string): { side: string; isSquare: boolean } {
  const text = typed.length > LONGEST_TYPED ? '' : scan(typed).text
  const [, side = '', word] = /^(.*\d ?(?:[a-z]+|['"]))\.? ?(square|squared|sq\.?)$/.exec(text) ?? []
  return { side, isSquare: word === 'square' }
}

/** The area of a square by its side, written in the unit of the business; null where no side can be read. */
function squareOf(side: string, system: UnitSystem): string | null {
  const reading = readMeasure(side, {
    ...dialectOf('length', depthUnits, system.length, system),
    least: tiny,
    most: new Decimal(100_000),
    show: value => showLength(value, system),
  })
  if (!reading.ok || reading.second) return null
  const gap = reading.spread?.times(two) ?? new Decimal(0)
  const [low, high] = [reading.value.minus(gap), reading.value.plus(gap)].map(
    one => `${one.times(one).toFixed()} ${areaUnit(system)}`,
  )
  return `${reading.about ? '≈ ' : ''}${low === high ? low : `${low} - ${high}`}`
}
