import { Decimal } from '../../../../lib/decimal.ts'
import { short, showArea, showLength, showVolume } from '../../../units/show.ts'
import type { UnitSystem } from '../../../units/units.ts'
import { type Dialect, type MeasureReading, readMeasure } from './measure.ts'
import { areaUnits, depthUnits, lengthUnits, type TypedUnit, volumeUnits } from './unit-words.ts'

const tiny = new Decimal('0.001')

/** Reads a length in ft|m: 12, 12 1/2, 12'6", 150", 4 yd, 3,8 m, about 20, 20-25, 20x5, 40 paces. pace in ft|m. */
export function readLength(typed: string, system: UnitSystem, pace: Decimal): MeasureReading {
  const units = lengthUnits(system, pace)
  return readMeasure(typed, {
    kind: 'length',
    units,
    bare: named(units, system.length),
    base: system.metresPerLength,
    least: tiny,
    most: new Decimal(100_000),
    doubtful: (digits, unit) =>
      unit.name === 'ft' ? feetOrInches(digits) : system.name === 'metric' && thousandOrDecimal(digits),
    show: value => showLength(value, system),
  })
}

/** Reads a depth in in|cm: 3, 3 in, 2 1/2", 8 cm, 2-3. Nothing deeper than 48 in|120 cm; least may be zero. */
export function readDepth(typed: string, system: UnitSystem, least: Decimal = tiny): MeasureReading {
  return readMeasure(typed, {
    ...undoubted('depth', depthUnits, named(depthUnits, system.depth)),
    least,
    most: system.depthsPerLength.times(system.name === 'us' ? 4 : '1.2'),
    show: value => `${short(value, 2)} ${system.depth}`,
  })
}

/** Reads an area in ft²|m²: 100, 100 sq ft, 10 m². */
export function readArea(typed: string, system: UnitSystem): MeasureReading {
  return readMeasure(typed, {
    ...undoubted('area', areaUnits, named(areaUnits, system.area)),
    doubtful: digits => system.name === 'metric' && thousandOrDecimal(digits),
    least: tiny,
    most: new Decimal(10_000_000),
    show: value => showArea(value, system),
  })
}

/** Reads a volume in ft³|m³: 50, 2 cubic yards, 2 yd, 1.5 m3, 800 l. A bare number is in ft³|m³, and the echo says so. */
export function readVolume(typed: string, system: UnitSystem): MeasureReading {
  return readMeasure(typed, {
    ...undoubted('volume', volumeUnits, named(volumeUnits, system.volume)),
    doubtful: digits => system.name === 'metric' && thousandOrDecimal(digits),
    least: tiny,
    most: new Decimal(1_000_000),
    show: value => showVolume(value, system),
  })
}

function undoubted(kind: Dialect['kind'], units: TypedUnit[], bare: TypedUnit) {
  return { kind, units, bare, base: bare.size, doubtful: () => false }
}

function named(units: TypedUnit[], name: string): TypedUnit {
  return units.find(unit => unit.name === name)!
}

// 5.6 may be feet and tenths or 5 ft 6 in; a half is a half.
function feetOrInches(digits: string): boolean {
  return /^\d+[.,]([12346789]|10|11)$/.test(digits)
}

function thousandOrDecimal(digits: string): boolean {
  return /^\d{1,3}[.,]\d{3}$/.test(digits)
}
