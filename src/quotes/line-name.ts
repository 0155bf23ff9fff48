import type { QuoteLineTable } from '../db/schema/quotes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { taxedAs } from '../estimate/tax/rates-at.ts'
import { type TaxLine, taxedByName, taxName } from '../estimate/tax/tax-name.ts'
import { NEAR, type TaxAmount } from '../estimate/tax/tax-on.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { shareInWords } from '../language/quantity-in-words.ts'
import { soldInWords } from '../language/sold-in-words.ts'
import { Decimal } from '../lib/decimal.ts'
import type { QuoteWithLines } from './queries.ts'

export type NamedLine = Pick<QuoteLineTable, 'kind' | 'slug' | 'description' | 'amount' | 'rate'>
export type CountedLine = Pick<QuoteLineTable, 'kind' | 'slug' | 'quantity' | 'unit' | 'rate'>

/** The same line without its rate where that is not to be shown, or no longer leads to the amount. */
export function withRate<Line extends CountedLine & Pick<QuoteLineTable, 'amount' | 'worked_out'>>(
  line: Line,
  isShown = true,
): Line {
  const leads = line.worked_out !== null && new Decimal(line.amount).eq(line.worked_out)
  return isShown && leads ? line : { ...line, rate: null }
}

/** What a line of a quote is called; the names of finishes and extras are those of the rate table it was made with. */
export function lineName(line: NamedLine, table: RateTable, language: Language): string {
  switch (line.kind) {
    case 'finish':
      return t(language, isApart(line, table) ? 'quote.line-finish-material' : 'quote.line-finish', {
        finish: nameIn(table.finishes, line.slug, language),
      })
    case 'laying':
      return t(language, 'quote.line-laying', { finish: nameIn(table.finishes, line.slug, language) })
    case 'adjustment': {
      const key = Number(line.amount) < 0 ? 'quote.line-discount' : 'quote.line-surcharge'
      return t(language, key, { reason: line.description ?? '' })
    }
    case 'tax': {
      const tax = taxName(line.slug as TaxLine | null, table)[language]
      const key = Number(line.amount) < 0 ? 'quote.line-tax-off' : 'quote.line-tax'
      return t(language, key, { tax, rate: shareInWords(line.rate ?? '0', language) })
    }
    case 'extra': {
      const extra = nameIn(table.extras, line.slug, language)
      const apart = table.extras.some(
        ({ slug, materialShare }) => slug === line.slug && materialShare !== null,
      )
      return apart ? t(language, 'quote.line-finish-material', { finish: extra }) : extra
    }
    case 'extra-labor':
      return t(language, 'quote.line-laying', { finish: nameIn(table.extras, line.slug, language) })
    case 'set-up':
    case 'size':
    case 'travel':
    case 'minimum':
      return t(language, `quote.line-${line.kind}`)
    case 'other':
      if (line.slug === NEAR) return t(language, 'near.line')
      return isRounding(line.description) ? t(language, 'quote.line-rounded') : (line.description ?? '')
    default:
      return line.kind satisfies never
  }
}

/**
 * How much of it at which rate, "1.25 cubic yards at $95.00", or "about 1.21 ..." where the amount was worked out with
 * more decimals than are shown; null where a line has no quantity.
 */
export function lineQuantity(line: CountedLine, table: RateTable, language: Language): string | null {
  if (line.quantity === null || line.unit === null) return null
  const sold = line.kind === 'finish' ? table.finishes.find(({ slug }) => slug === line.slug) : undefined
  const quantity = soldInWords({ value: line.quantity, unit: line.unit }, sold, table, language)
  if (line.rate === null) return quantity
  const exact = new Decimal(line.quantity).decimalPlaces() <= 2
  const rate = moneyInWords(line.rate, table.currency, language)
  return t(language, exact ? 'quote.at-rate' : 'quote.about-at-rate', { quantity, rate })
}

/** What is to be said of tax beside a quote's total: that it is in it, or why none is owed; null for neither. */
export function taxNote(
  { tax, terms, currency }: Pick<QuoteWithLines, 'tax' | 'terms' | 'currency'>,
  table: RateTable,
  language: Language,
): string | null {
  if (tax === null || table.tax === null) return null
  const name = taxName(taxedByName(terms, table), table)[language]
  if (terms.exempt !== '') return t(language, 'quote.tax-exempt', { tax: name, certificate: terms.exempt })
  const { certificate = '' } = terms
  const certified = table.tax.newWork.certificate && taxedAs(terms, table.tax) === 'new'
  const included = (due: TaxAmount, tax: string) =>
    Number(due.amount) > 0
      ? t(language, 'quote.tax-included', {
          tax,
          rate: shareInWords(due.rate, language),
          amount: moneyInWords(due.amount, currency, language),
        })
      : ''
  const said = [
    certified ? t(language, 'quote.tax-new-work', { certificate }) : '',
    tax.included ? included(tax, name) : '',
    tax.included && tax.second ? included(tax.second, taxName('second', table)[language]) : '',
  ].filter(Boolean)
  return said.length > 0 ? said.join(' ') : null
}

// Ours, in whichever language it was made; the contractor may have put other words there.
function isRounding(description: string | null): boolean {
  return description === t('en', 'quote.line-rounded') || description === t('es', 'quote.line-rounded')
}

// The labor of laying it is a line of its own.
function isApart({ slug }: NamedLine, table: RateTable): boolean {
  return table.finishes.some(finish => finish.slug === slug && finish.materialShare !== null)
}

function nameIn(things: RateTable['finishes' | 'extras'], slug: string | null, language: Language): string {
  return things.find(thing => thing.slug === slug)?.name[language] ?? slug ?? ''
}
