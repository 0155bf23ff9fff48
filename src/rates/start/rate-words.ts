import type { RateTable } from '../../estimate/table/rate-table.ts'
import { isRatedAsSold, rateUnit } from '../../estimate/table/sold.ts'
import { bulkName, withSigns } from '../../estimate/units/unit-of.ts'
import { unitSystem } from '../../estimate/units/units.ts'

const SHORT = { yd3: 'yd³', m3: 'm³' } as const

/** The sizes of job that have rates of their own, the smallest first; one where there is one rate whatever the size. */
export function sizesInWords({ tiers, units }: Pick<RateTable, 'tiers' | 'units'>): string[] {
  const unit = SHORT[unitSystem(units).bulk]
  if (tiers.length === 0) return ['any size']
  return [`under ${tiers[0]} ${unit}`, ...tiers.map(from => `from ${from} ${unit}`)]
}

/** What a rate of a finish is for, as "cubic yard", "bale" or "ft² at 3 in". */
export function rateUnitInWords(
  finish: Parameters<typeof rateUnit>[0],
  table: Pick<RateTable, 'units'>,
): string {
  return isRatedAsSold(finish) ? withSigns(rateUnit(finish, table)) : bulkName(table)
}

/** What an extra is charged by, as "per foot of edge". */
export function perInWords(per: RateTable['extras'][number]['per'], units: RateTable['units']): string {
  const us = units === 'us'
  switch (per) {
    case 'job':
      return 'per job'
    case 'bed':
      return 'per bed'
    case 'area':
      return us ? 'per square foot' : 'per square meter'
    case 'edge':
      return us ? 'per foot of edge' : 'per meter of edge'
    case 'volume':
      return us ? 'per cubic yard' : 'per cubic meter'
    case 'lying':
      return us ? 'per cubic yard removed' : 'per cubic meter removed'
    default:
      return per satisfies never
  }
}
