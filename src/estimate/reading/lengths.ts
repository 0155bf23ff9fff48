import { Decimal } from '../../lib/decimal.ts'
import { short, showLength, showVolume } from '../units/show.ts'
import type { UnitSystem } from '../units/units.ts'
import { readArea } from './areas.ts'
import { dialectOf, tiny } from './dialect.ts'
import { type MeasureReading, readMeasure } from './measure.ts'
import { depthUnits, lengthUnits, volumeUnits } from './unit-words.ts'

const longest = new Decimal(100_000)

/** Reads a length in ft|m: 12, 12 1/2, 12'6", 150", 4 yd, 3,8 m, about 20, 20-25, 20x5, 40 paces. pace in ft|m. */
export function readLength(typed: string, system: UnitSystem, pace: Decimal): MeasureReading {
  const units = lengthUnits(system, pace)
  const reading = readMeasure(typed, {
    ...dialectOf('length', units, system.length, system),
    base: system.metresPerLength,
    least: tiny,
    most: longest,
    show: value => showLength(value, system),
  })
  return noLength(reading, typed, system)
}

/** Reads a depth in in|cm: 3, 3 in, 2 1/2", 8 cm, 2-3. Nothing deeper than 48 in|120 cm; least may be zero. */
export function readDepth(typed: string, system: UnitSystem, least: Decimal = tiny): MeasureReading {
  const reading = readMeasure(typed, {
    ...dialectOf('depth', depthUnits, system.depth, system),
    least,
    most: system.depthsPerLength.times(system.name === 'us' ? 4 : '1.2'),
    show: value => `${short(value, 2)} ${system.depth}`,
  })
  return noLength(reading, typed, system)
}

/** Reads a volume in ft³|m³: 2 cubic yards, 2 yd, 50 cu ft, 1.5 m3, 800 l, 20 bags of 2 cu ft. A bare number is asked for its unit. */
export function readVolume(typed: string, system: UnitSystem): MeasureReading {
  return readMeasure(typed, {
    ...dialectOf('volume', volumeUnits, system.name === 'us' ? 'ft³' : 'm³', system),
    asks: system.name === 'us' ? ['yd³', 'ft³'] : ['m³', 'l'],
    least: tiny,
    most: new Decimal(1_000_000),
    show: value => showVolume(value, system),
  })
}

// What can't be a length as it is an area or a volume is refused as such.
function noLength(reading: MeasureReading, typed: string, system: UnitSystem): MeasureReading {
  if (reading.ok || !/-unreadable$/.test(reading.key)) return reading
  if (readArea(typed, system).ok) return { ok: false, key: 'fault.is-area', params: reading.params }
  if (readVolume(typed, system).ok) return { ok: false, key: 'fault.is-volume', params: reading.params }
  return reading
}
