import type { Decimal } from '../../lib/decimal.ts'
import type { MeasureKind } from '../job/fault-keys.ts'
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
