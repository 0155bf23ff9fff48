import { Decimal, rounded } from '../../lib/decimal.ts'

export type UnitName = 'ft' | 'ft2' | 'ft3' | 'yd3' | 'm' | 'm2' | 'm3' | 'bed' | SoldUnit

/** What a material may be sold in besides its volume: a ton is the short one of 2,000 lb, a tonne 1,000 kg. */
export type SoldUnit = 'bale' | 'ton' | 'tonne'

/** A figure with its unit, as shown and as given to other programs: at least four decimals. */
export interface Q {
  value: string
  unit: UnitName
}

/** How one system measures. The estimate is written over this, never twice. */
export interface UnitSystem {
  name: 'us' | 'metric'
  length: 'ft' | 'm'
  depth: 'in' | 'cm'
  area: 'ft2' | 'm2'
  volume: 'ft3' | 'm3'
  bulk: 'yd3' | 'm3'
  weight: 'lb' | 'kg'
  ton: 'ton' | 'tonne'
  /** Of a short ton|tonne, in lb|kg. */
  weightPerTon: Decimal
  depthsPerLength: Decimal
  volumesPerBulk: Decimal
  metresPerLength: Decimal
}

const us: UnitSystem = {
  name: 'us',
  length: 'ft',
  depth: 'in',
  area: 'ft2',
  volume: 'ft3',
  bulk: 'yd3',
  weight: 'lb',
  ton: 'ton',
  weightPerTon: new Decimal(2000),
  depthsPerLength: new Decimal(12),
  volumesPerBulk: new Decimal(27),
  metresPerLength: new Decimal('0.3048'),
}

const metric: UnitSystem = {
  name: 'metric',
  length: 'm',
  depth: 'cm',
  area: 'm2',
  volume: 'm3',
  bulk: 'm3',
  weight: 'kg',
  ton: 'tonne',
  weightPerTon: new Decimal(1000),
  depthsPerLength: new Decimal(100),
  volumesPerBulk: new Decimal(1),
  metresPerLength: new Decimal(1),
}

export function unitSystem(name: 'us' | 'metric'): UnitSystem {
  return name === 'us' ? us : metric
}

export function quantity(value: Decimal, unit: UnitName): Q {
  return { value: rounded(value, 4).toFixed(4), unit }
}
