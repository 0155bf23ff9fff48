import type { ShareDone, TaxNames } from '../db/schema/bills.ts'
import type { Terms } from '../estimate/job/terms.ts'
import { withTax } from '../estimate/price/firm-price.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { taxedByName, taxName } from '../estimate/tax/tax-name.ts'
import type { TaxDue } from '../estimate/tax/tax-on.ts'
import { t } from '../language/catalogue.ts'
import type { InBoth, Language } from '../language/language.ts'
import { shareInWords } from '../language/quantity-in-words.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'
import { totalOf } from '../quotes/compose-lines.ts'
import { taxLines } from '../quotes/compose-quote.ts'
import { lineName, lineQuantity, type NamedLine, taxNote, withRate } from '../quotes/line-name.ts'
import type { QuoteWithLines } from '../quotes/queries.ts'
import type { LineShare } from '../quotes/stop-shares.ts'

/** A line of the contractor's own; below zero it takes off. */
export interface AddedLine {
  description: string
  amount: string
}

/** What a bill is made of. */
export interface BillOf {
  /** The price that was accepted, and what of its lines falls onto each stop. */
  quote: QuoteWithLines
  shares: readonly LineShare[]
  /** What was done of the lines; of one that isn't named, all. */
  done: readonly ShareDone[]
  added: readonly AddedLine[]
  postcode: string
  /** The certificate that counts on the day of the bill; '' for none. */
  exempt: string
  /** The tables that the price was made with, and that the tax goes by on the day of the bill. */
  tables: { quote: RateTable; now: RateTable }
  showRates: boolean
}

/** A line as a bill keeps it. */
export interface BillLine {
  position: number
  kind: QuoteWithLines['lines'][number]['kind']
  slug: string | null
  words: InBoth
  quantity: InBoth | null
  amount: string
}

export interface ComposedBill {
  lines: BillLine[]
  shares: LineShare[]
  terms: Terms
  tax: TaxDue | null
  taxNames: TaxNames
  taxNote: InBoth | null
  total: string
}

/**
 * The lines of a bill: those that were accepted, as far as they were done, the contractor's own, and the tax on them as it
 * is worked out on its day. Lines that come to nothing are left out.
 */
export function composeBill(of: BillOf): ComposedBill {
  const { quote, tables, added } = of
  const accepted = quote.lines.filter(({ kind }) => kind !== 'tax')
  const shares = sharesDone(of)
  const worked = accepted.map(line => ({ line, amount: amountDone(line, shares, of) }))
  const last = Math.max(0, ...accepted.map(({ position }) => position))
  const own = added.map(({ description, amount }, index) => {
    const line = { kind: 'other' as const, slug: null, description, rate: null, amount: cents(amount) }
    return { position: last + index + 1, ...line }
  })
  const terms: Terms = { ...quote.terms, exempt: of.exempt }
  const table = taxTable(tables)
  const before = [...worked.map(({ line, amount }) => ({ ...line, amount })), ...own]
  const { tax } = withTax(before, of.postcode, terms, table)
  const taxes = tax ? taxLines(tax, last + own.length, terms, table) : []
  const lines = [
    ...worked.map(({ line, amount }) => ({
      ...named({ ...line, amount }, line.position, tables.quote),
      quantity: quantityOf(line, amount, of),
    })),
    ...own.map(line => named(line, line.position, tables.quote)),
    ...taxes.map(({ kind, slug = null, rate = null, amount, position }) => {
      const line = { kind, slug, description: null, rate: rate && String(rate), amount: cents(amount) }
      return named(line, position, table)
    }),
  ].filter(({ amount }) => Number(amount) !== 0)
  const kept = new Set(lines.map(({ position }) => position))
  const noteIn = (language: Language) => taxNote({ tax, terms, currency: quote.currency }, table, language)
  const note = both(language => noteIn(language) ?? '')
  return {
    lines,
    shares: shares.filter(({ position }) => kept.has(position)),
    terms,
    tax,
    taxNames: namesOf(tax, terms, table),
    taxNote: note.en === '' ? null : note,
    total: totalOf(lines),
  }
}

/** The table that tax goes by; whether prices have it in them is as they were accepted. */
function taxTable({ quote, now }: BillOf['tables']): RateTable {
  if (!now.tax || !quote.tax) return now
  return { ...now, tax: { ...now.tax, prices: quote.tax.prices } }
}

function sharesDone({ shares, done }: BillOf): LineShare[] {
  return shares.flatMap(one => {
    const share = done.find(({ position, stop }) => position === one.position && stop === one.stop)?.share
    const amount = cents(new Decimal(one.amount).times(share ?? 1))
    return Number(amount) === 0 ? [] : [{ ...one, amount }]
  })
}

function amountDone(
  { position, amount }: { position: number; amount: string },
  shares: readonly LineShare[],
  of: BillOf,
): string {
  if (of.shares.some(share => share.position === position)) {
    const own = shares.filter(share => share.position === position)
    return cents(sumOf(own.map(share => new Decimal(share.amount))))
  }
  const share = of.done.find(one => one.position === position && one.stop === null)?.share
  return cents(new Decimal(amount).times(share ?? 1))
}

function named(line: NamedLine, position: number, table: RateTable): BillLine {
  const { kind, slug, amount } = line
  return {
    ...{ position, kind, slug, amount: cents(amount), quantity: null },
    words: both(language => lineName(line, table, language)),
  }
}

// Of what was done in part it says how much of it.
function quantityOf(
  line: QuoteWithLines['lines'][number],
  amount: string,
  { tables, showRates }: BillOf,
): InBoth | null {
  if (!new Decimal(amount).eq(line.amount)) {
    const share = new Decimal(amount).div(line.amount).toDecimalPlaces(3).toString()
    return both(language => t(language, 'bill.part', { share: shareInWords(share, language) }))
  }
  const words = both(language => lineQuantity(withRate(line, showRates), tables.quote, language) ?? '')
  return words.en === '' ? null : words
}

function namesOf(tax: TaxDue | null, terms: Terms, table: RateTable): TaxNames {
  return {
    first: taxName(taxedByName(terms, table), table),
    second: tax?.second ? taxName('second', table) : null,
  }
}

function both(say: (language: Language) => string): InBoth {
  return { en: say('en'), es: say('es') }
}
