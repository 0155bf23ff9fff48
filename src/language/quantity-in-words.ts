import { Decimal } from '../lib/decimal.ts'
import { t } from './catalogue.ts'
import type { Language } from './language.ts'
import { figureInWords } from './money-in-words.ts'

/** A quantity with its unit in words, "1.21 cubic yards". `unit` is ft, ft2, ft3, yd3, m, m2 or m3. */
export function quantityInWords(value: string, unit: string, language: Language, decimals = 2): string {
  return t(language, `quote.unit-${unit}`, { n: figureInWords(value, language, decimals) })
}

/** A share as a percentage, "8.25 %". */
export function shareInWords(share: string, language: Language): string {
  return `${figureInWords(new Decimal(share).times(100).toString(), language, 3)} %`
}
