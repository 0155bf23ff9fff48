import { Decimal, figureOf, one } from '../../lib/decimal.ts'
import { type SoldUnit, type UnitSystem, unitSystem } from '../units/units.ts'
import type { Finish, RateTable, Span } from './rate-table.ts'

type Soldish = Pick<Finish, 'saleUnit' | 'baleCovers' | 'soldDepth' | 'soldDensity'>
type Units = Pick<RateTable, 'units'>

/**
 * The unit that a finish is sold in. One of it is volume ÷ per, in ft³|m³: kept apart, so that what has no end in
 * decimals is divided last. deep is the depth, in in|cm, of what is sold by its area; null else.
 */
export interface Sold {
  unit: UnitSystem['bulk'] | UnitSystem['area'] | SoldUnit
  volume: Decimal
  per: Decimal
  deep: string | null
}

/** What a finish is sold in, by the figures that its unit needs: the rate table refuses a finish without them. */
export function soldIn({ saleUnit, baleCovers, soldDepth, soldDensity }: Soldish, { units }: Units): Sold {
  const { area, bulk, ton, volumesPerBulk, weightPerTon, depthsPerLength } = unitSystem(units)
  switch (saleUnit) {
    case 'volume':
      return { unit: bulk, volume: volumesPerBulk, per: one, deep: null }
    case 'bale':
      return {
        unit: 'bale',
        volume: figureOf(soldDepth ?? '0').times(figureOf(baleCovers ?? '0')),
        per: depthsPerLength,
        deep: null,
      }
    case 'ton':
      return {
        unit: ton,
        volume: volumesPerBulk.times(weightPerTon),
        per: figureOf(soldDensity ?? '0'),
        deep: null,
      }
    case 'area':
      return { unit: area, volume: figureOf(soldDepth ?? '0'), per: depthsPerLength, deep: soldDepth }
    default:
      return saleUnit satisfies never
  }
}

/** The figures that a finish needs for the unit it is sold in and hasn't. */
export function soldLacks(finish: Soldish): (keyof Soldish)[] {
  const needs = {
    volume: [],
    bale: ['baleCovers', 'soldDepth'],
    ton: ['soldDensity'],
    area: ['soldDepth'],
  } as const
  return needs[finish.saleUnit].filter(figure => finish[figure] === null)
}

/** So much of a finish, told in ft³|m³, in the unit that it is sold in. */
export function asSold(volume: Decimal, finish: Soldish, table: Units): Decimal {
  const { per, volume: each } = soldIn(finish, table)
  return (per === one ? volume : volume.times(per)).div(each)
}

/** Whether the rates of a finish are for each unit that it is sold in, where that isn't its volume. */
export function isRatedAsSold({ saleUnit, ratesPer }: Pick<Finish, 'saleUnit' | 'ratesPer'>): boolean {
  return saleUnit !== 'volume' && ratesPer === 'sold'
}

type Rated = Soldish & Pick<Finish, 'ratesPer'>

/** What the rates of a finish are for, as units are written: 'yd3', 'bale', 'ft2 at 3 in'. */
export function rateUnit(finish: Rated, table: Units): string {
  const { bulk, depth } = unitSystem(table.units)
  if (!isRatedAsSold(finish)) return bulk
  const { unit, deep } = soldIn(finish, table)
  return deep === null ? unit : `${unit} at ${deep} ${depth}`
}

type Costed = Soldish & Pick<Finish, 'materialCostPer'>

/** What the cost of a finish that has no packs is for, as rates are. */
export function costedAs<One extends Costed>(finish: One): One & Rated {
  return { ...finish, ratesPer: finish.materialCostPer }
}

/** So much of a finish, in yd³|m³, in the unit that its cost is for. */
export function asCosted(volume: Decimal, finish: Costed, table: Units): Decimal {
  if (!isRatedAsSold(costedAs(finish))) return volume
  return asSold(volume.times(unitSystem(table.units).volumesPerBulk), finish, table)
}

/** An installed rate of a finish per yd³|m³, whatever unit it was typed in. */
export function ratePerBulk(finish: Finish, column: number, table: Units): Span {
  const rate = finish.rates[column]!
  if (!isRatedAsSold(finish)) return rate
  const sold = soldIn(finish, table)
  const bulk = unitSystem(table.units).volumesPerBulk
  const converted = (each: string) => new Decimal(each).times(sold.per).times(bulk).div(sold.volume).toFixed()
  return { lower: converted(rate.lower), upper: converted(rate.upper) }
}
