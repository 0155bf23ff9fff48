import type { RateTable } from '../estimate/table/rate-table.ts'
import { taxedAs } from '../estimate/tax/rates-at.ts'
import { taxedByName, taxName } from '../estimate/tax/tax-name.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import type { ComposedQuote } from './compose-quote.ts'
import { lineName } from './line-name.ts'
import type { Priced } from './pricing.ts'

/** What the form of a quote asks about tax. */
export interface TaxAsked {
  name: string
  /** What the second tax is called; null where there is none. */
  second: string | null
  /** Whether new work needs a certificate. */
  certificate: boolean
}

/** Null where the business charges no tax. */
export function taxAsked({ tax }: RateTable): TaxAsked | null {
  if (tax === null) return null
  const second = tax.second.rate === null ? null : tax.second.name.en
  return { name: tax.name.en, second, certificate: tax.newWork.certificate }
}

/** That tax is charged on new work as long as nobody gave the certificate that it needs. */
export function certificateWarning({ terms, rates }: Pick<Priced, 'terms' | 'rates'>): string[] {
  const { tax } = rates.body
  if (tax === null || terms.work === 'upkeep' || terms.exempt !== '' || taxedAs(terms, tax) === 'new')
    return []
  return ['There’s no certificate for the new work yet, so tax is charged as when you refresh beds.']
}

/** A discount or surcharge, and every tax: what follows from the terms, or is in the prices. */
export function settledLines(
  { lines, tax }: ComposedQuote,
  { rates, terms }: Priced,
): { what: string; amount: string }[] {
  const table = rates.body
  const money = (amount: string) => moneyInWords(amount, table.currency, 'en')
  const settled = lines
    .filter(line => line.kind === 'adjustment' || line.kind === 'tax')
    .map(({ kind, slug = null, description = null, rate = null, amount }) => ({
      what: lineName({ kind, slug, description, rate, amount }, table, 'en'),
      amount: money(amount),
    }))
  if (!tax?.included) return settled
  const within = [{ due: tax, name: taxName(taxedByName(terms, table), table) }]
  const all = tax.second ? [...within, { due: tax.second, name: taxName('second', table) }] : within
  return [
    ...settled,
    ...all.map(({ due, name }) => ({ what: `Of which ${name.en}`, amount: money(due.amount) })),
  ]
}
