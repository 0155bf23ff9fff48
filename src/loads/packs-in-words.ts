import type { PackOf } from '../db/schema/goods.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import type { Decimal } from '../lib/decimal.ts'
import { unitsOfPack } from '../on-hand/pack-words.ts'

/** How many there are of a pack, in words; of what none is listed by its volume, or as its cost is told. */
export function packsInWords(
  units: Decimal,
  named: { of: PackOf; slug: string; pack: string },
  table: RateTable,
  language: Language,
): string {
  if (named.pack === '') return looseInWords(units, named, table, language)
  return unitsOfPack(units.toFixed(3), named, table, language)
}

function looseInWords(
  units: Decimal,
  { of, slug }: { of: PackOf; slug: string },
  table: RateTable,
  language: Language,
): string {
  const { bulk, area, length } = unitSystem(table.units)
  const extra = of === 'extra' ? table.extras.find(one => one.slug === slug) : undefined
  const unit = { area, edge: length, bed: 'bed', volume: bulk, lying: bulk } as const
  if (extra?.per === 'job')
    return t(language, 'loads.for-whole-jobs', { n: figureInWords(units.toFixed(3), language, 3) })
  return quantityInWords(units.toFixed(3), extra ? unit[extra.per as keyof typeof unit] : bulk, language)
}
