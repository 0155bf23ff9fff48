import type { Language, QuoteLineTable } from '../db/schema.ts'
import type { RateTable } from '../estimate/rate-table.ts'
import { t } from '../language/catalogue.ts'
import { figureInWords, moneyInWords } from '../lib/money-in-words.ts'
import { Decimal } from '../money.ts'

export type NamedLine = Pick<QuoteLineTable, 'kind' | 'slug' | 'description'>
export type CountedLine = Pick<QuoteLineTable, 'quantity' | 'unit' | 'rate'>

/** What a line of a quote is called; the names of finishes and extras are those of the rate table it was made with. */
export function lineName(line: NamedLine, table: RateTable, language: Language): string {
  switch (line.kind) {
    case 'finish':
      return t(language, 'quote.line-finish', { finish: nameIn(table.finishes, line.slug, language) })
    case 'extra':
      return nameIn(table.extras, line.slug, language)
    case 'size':
    case 'travel':
    case 'minimum':
      return t(language, `quote.line-${line.kind}`)
    case 'other':
      return line.description ?? ''
    default:
      return line.kind satisfies never
  }
}

/**
 * How much of it at which rate, "1.25 cubic yards at $95.00", or "about 1.21 ..." where the amount was worked out with
 * more decimals than are shown; null where a line has no quantity.
 */
export function lineQuantity(line: CountedLine, currency: string, language: Language): string | null {
  if (line.quantity === null || line.unit === null) return null
  const quantity = quantityInWords(line.quantity, line.unit, language)
  if (line.rate === null) return quantity
  const exact = new Decimal(line.quantity).decimalPlaces() <= 2
  const rate = moneyInWords(line.rate, currency, language)
  return t(language, exact ? 'quote.at-rate' : 'quote.about-at-rate', { quantity, rate })
}

/** A quantity with its unit in words, "1.21 cubic yards". `unit` is ft, ft2, ft3, yd3, m, m2 or m3. */
export function quantityInWords(value: string, unit: string, language: Language, decimals = 2): string {
  return t(language, `quote.unit-${unit}`, { n: figureInWords(value, language, decimals) })
}

function nameIn(things: RateTable['finishes' | 'extras'], slug: string | null, language: Language): string {
  return things.find(thing => thing.slug === slug)?.name[language] ?? slug ?? ''
}
