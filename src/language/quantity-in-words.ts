import type { UnitName } from '../estimate/units/units.ts'
import { Decimal } from '../lib/decimal.ts'
import type { Language } from './language.ts'
import { figureInWords } from './money-in-words.ts'
import { tOf } from './sentences.ts'
import * as units from './units.ts'

const t = tOf(units)

/** A quantity with its unit in words, "1.21 cubic yards". */
export function quantityInWords(value: string, unit: UnitName, language: Language, decimals = 2): string {
  const n = figureInWords(value, language, decimals)
  return t(language, n === '1' ? `units.${unit}-one` : `units.${unit}`, { n })
}

/** A share as a percentage, "8.25%". */
export function shareInWords(share: string, language: Language): string {
  return `${figureInWords(new Decimal(share).times(100).toString(), language, 3)}%`
}
