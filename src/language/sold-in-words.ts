import type { RateTable } from '../estimate/table/rate-table.ts'
import { soldIn } from '../estimate/table/sold.ts'
import { type Q, unitSystem } from '../estimate/units/units.ts'
import * as beds from './beds.ts'
import type { Language } from './language.ts'
import { figureInWords } from './money-in-words.ts'
import { quantityInWords } from './quantity-in-words.ts'
import { tOf } from './sentences.ts'
import * as units from './units.ts'

const t = tOf(units)
const tOfBeds = tOf(beds)

type SoldFinish = Parameters<typeof soldIn>[0] | undefined

/**
 * An amount of a finish as people read it: '28 bales', '1.3 tons', and with its depth what is sold by its area, '600
 * square feet, 2 in deep'. A finish that the table hasn't any more says no depth.
 */
export function soldInWords(
  { value, unit }: Q,
  finish: SoldFinish,
  table: Pick<RateTable, 'units'>,
  language: Language,
  decimals = 2,
): string {
  const amount = quantityInWords(value, unit, language, decimals)
  const deep = finish ? soldIn(finish, table).deep : null
  return deep === null
    ? amount
    : t(language, 'units.at-depth', { amount, depth: depthOf(deep, table, language) })
}

function depthOf(deep: string, table: Pick<RateTable, 'units'>, language: Language): string {
  return tOfBeds(language, `beds.unit-${unitSystem(table.units).depth}`, {
    n: figureInWords(deep, language, 2),
  })
}
