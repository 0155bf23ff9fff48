import { type Decimal, one } from '../../lib/decimal.ts'
import type { UnitSystem } from '../units/units.ts'
import type { Name } from './names.ts'

/** From so many units on, each costs so much; the first of a list is from 0. */
export interface PriceFrom {
  from: string
  each: string
}

/** How something is bought, in units: whole packs, or yd³|m³ and tons|tonnes in bulk. least and step in units. */
interface Bought {
  slug: string
  name: Name
  prices: PriceFrom[]
  least: string
  step: string
  collected: boolean
  /** fee in money for the whole order; nothing from freeFrom units on. */
  delivered: { fee: string; freeFrom: string | null } | null
}

/** holds in ft³|m³. */
export type Bag = Bought & { kind: 'bag'; holds: string }
/** covers in ft²|m² when laid so deep, in in|cm. */
export type Bale = Bought & { kind: 'bale'; covers: string; deep: string }
export type Bulk = Bought & { kind: 'bulk' }
/** Sold by the short ton|tonne; density as it is sold, in lb per yd³ | kg per m³. */
export type Weighed = Bought & { kind: 'weighed'; density: string }
/** width, length and overlap in ft|m. */
export type Roll = Bought & { kind: 'roll'; width: string; length: string; overlap: string }
/** length in ft|m; stakes: how many go with a piece, each at stakeEach. */
export type Piece = Bought & { kind: 'piece'; length: string; stakes: string; stakeEach: string }

/** A way in which a finish is bought. */
export type Pack = Bag | Bale | Bulk | Weighed
/** A way in which what an extra needs is bought: rolls by area, pieces by length. */
export type ExtraPack = Roll | Piece

/** What one unit gives: yd³|m³ of a finish, ft²|m² of a roll laid with its overlap, ft|m of a piece. */
export function contentsOf(pack: Pack | ExtraPack, system: UnitSystem): Decimal {
  switch (pack.kind) {
    case 'bag':
      return one.times(pack.holds).div(system.volumesPerBulk)
    case 'bale':
      return one.times(pack.covers).times(pack.deep).div(system.depthsPerLength).div(system.volumesPerBulk)
    case 'bulk':
      return one
    case 'weighed':
      return system.weightPerTon.div(pack.density)
    case 'roll':
      return one.times(pack.width).minus(pack.overlap).times(pack.length)
    case 'piece':
      return one.times(pack.length)
    default:
      return pack satisfies never
  }
}

/** One way to get a pack: brought, or fetched. key is how a rate table pins it: 'bag-2:collected'. */
export interface Way<P extends Pack | ExtraPack = Pack | ExtraPack> {
  key: string
  pack: P
  delivered: boolean
}

/** Every way to buy, in the order of the list. */
export function waysOf<P extends Pack | ExtraPack>(packs: P[]): Way<P>[] {
  return packs.flatMap(pack => [
    ...(pack.collected ? [{ key: `${pack.slug}:collected`, pack, delivered: false }] : []),
    ...(pack.delivered ? [{ key: `${pack.slug}:delivered`, pack, delivered: true }] : []),
  ])
}
