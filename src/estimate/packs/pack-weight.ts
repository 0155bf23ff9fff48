import type { Decimal } from '../../lib/decimal.ts'
import { one } from '../../lib/decimal.ts'
import { contentsOf, type ExtraPack, type Pack } from '../table/pack.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

/** What one bag or bale weighs wet, in lb|kg: as the owner says, else by what it holds; null where neither is known, or of what isn't lifted whole. */
export function packWeight(
  pack: Pack | ExtraPack,
  { densityWet }: Pick<Finish, 'densityWet'>,
  { units }: Pick<RateTable, 'units'>,
): Decimal | null {
  if (pack.kind !== 'bag' && pack.kind !== 'bale') return null
  if (pack.weightWet !== null) return one.times(pack.weightWet)
  return densityWet === null ? null : contentsOf(pack, unitSystem(units)).times(densityWet)
}
