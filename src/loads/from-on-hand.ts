import type { PackOf } from '../db/schema/goods.ts'
import { contentsOf, type ExtraPack, type Pack } from '../estimate/table/pack.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { packOf } from '../on-hand/pack-words.ts'
import { type Share, shareOut } from './share-out.ts'
import { amountIn, isOf, type Wanted } from './wanted.ts'

/** So much of a pack as it lies somewhere. */
export interface OnHandRow {
  id: number
  of: PackOf
  slug: string
  pack: string
  spot: string
  units: string
}

/** What is taken from on hand, and for which jobs. */
export interface Take {
  row: OnHandRow
  pack: Pack | ExtraPack
  units: Decimal
  contents: Decimal
  shares: Share[]
}

/**
 * Takes from on hand what these jobs still want, before anything is bought: whole packs, or as much as is needed of what is
 * loose. Gives what is taken, what stays there, and what is left to be bought.
 */
export function takeFromOnHand(
  wanted: Wanted[],
  rows: OnHandRow[],
  table: RateTable,
): { takes: Take[]; rows: OnHandRow[]; wanted: Wanted[] } {
  const takes: Take[] = []
  let left = wanted
  const after = rows.map(row => {
    const pack = packOf(row, table)
    const asking = left.filter(one => isOf(one, row.of, row.slug) && one.left.gt(0))
    if (!pack || asking.length === 0 || Number(row.units) <= 0) return row
    const contents = contentsOf(pack, unitSystem(table.units))
    const needed = sumOf(asking.map(one => amountIn(one, pack).times(one.left))).div(contents)
    const isLoose = pack.kind === 'bulk' || pack.kind === 'weighed'
    const whole = isLoose ? needed.toDecimalPlaces(3, Decimal.ROUND_UP) : needed.toDecimalPlaces(6).ceil()
    const units = Decimal.min(whole, row.units)
    const out = shareOut(units, contents, pack, asking)
    takes.push({ row, pack, units, contents, shares: out.shares })
    left = left.map(one => out.wanted[asking.indexOf(one)] ?? one)
    return { ...row, units: new Decimal(row.units).minus(units).toFixed(3) }
  })
  return { takes, rows: after, wanted: left }
}
