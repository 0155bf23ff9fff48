import { Decimal } from '../../lib/decimal.ts'
import type { MeasureKind } from '../job/fault-keys.ts'
import type { UnitSystem } from '../units/units.ts'
import type { TypedUnit } from './unit-words.ts'

/** What is being read: its units, the one meant by a bare number, the base unit's size, its limits and its echo. */
export interface Dialect {
  kind: MeasureKind
  units: TypedUnit[]
  bare: TypedUnit
  base: Decimal
  metric: boolean
  /** Whether a bare number is asked for its unit: with which ones, by name. */
  asks: string[]
  least: Decimal
  most: Decimal
  show: (value: Decimal) => string
}

/** The least that any size may be. */
export const tiny = new Decimal('0.001')

/** What all dialects of a business have in common; `name` is the unit of a bare number. */
export function dialectOf(kind: MeasureKind, units: TypedUnit[], name: string, system: UnitSystem) {
  const bare = units.find(unit => unit.name === name)!
  return { kind, units, bare, base: bare.size, metric: system.name === 'metric', asks: [] as string[] }
}
