import type { FormFields } from '../http/form-fields.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { cents, Decimal, roundToCent } from '../lib/decimal.ts'
import { type LinesWanted, ROUNDED } from './compose-lines.ts'
import { composeQuote } from './compose-quote.ts'
import type { QuoteReading } from './form.ts'
import type { Priced } from './pricing.ts'

/**
 * What was read of a quote's form, with the round total typed there as one line of the contractor's own in place of the
 * one from before; unchanged where none was typed.
 */
export function withRoundTotal(
  fields: FormFields,
  priced: Priced,
  reading: QuoteReading,
  language: Language,
): QuoteReading {
  if (fields.text('roundTotal') === '') return reading
  const total = fields.amount('roundTotal', 'Give a total, such as 450.')
  const faulty = Object.keys(fields.errors).length > 0
  if (total === null || Number(total) < 0 || faulty) {
    if (total !== null && Number(total) < 0) fields.fault('roundTotal', 'Give a total of zero or more.')
    return { ...reading, typed: fields.typed }
  }
  const wanted = { ...reading.wanted, added: roundedTo(total, priced, reading.wanted, language) }
  showAdded(fields, wanted.added)
  fields.retype('roundTotal', '')
  return { ...reading, typed: fields.typed, wanted }
}

function roundedTo(
  total: string,
  priced: Priced,
  wanted: LinesWanted,
  language: Language,
): LinesWanted['added'] {
  const others = wanted.added.filter(({ reason }) => reason !== ROUNDED)
  const line = (amount: Decimal) => ({
    description: t(language, 'quote.line-rounded'),
    amount: cents(amount),
    reason: ROUNDED,
  })
  const comesTo = (amount: Decimal) =>
    new Decimal(composeQuote(priced, { ...wanted, added: [...others, line(amount)] }).total)
  const missing = new Decimal(total).minus(comesTo(new Decimal(0)))
  if (missing.isZero()) return others
  // With tax on top a dollar of the line is more than a dollar of the total, and its cents may skip one.
  const slope = comesTo(missing)
    .minus(comesTo(new Decimal(0)))
    .div(missing)
  const about = roundToCent(missing.div(slope.isZero() ? 1 : slope))
  const near = [0, -1, 1, -2, 2].map(step => about.plus(new Decimal(step).div(100)))
  const off = (amount: Decimal) => comesTo(amount).minus(total).abs()
  const best = near.reduce((found, amount) => (off(amount).lt(off(found)) ? amount : found))
  return [...others, line(best)]
}

// The rows of the form as they are now; what is left over is empty.
function showAdded(fields: FormFields, added: LinesWanted['added']): void {
  const rows = Math.max(fields.rows('added').length, added.length)
  for (let index = 0; index < rows; index++) {
    const { description = '', amount = '', reason = '' } = added[index] ?? {}
    const row = fields.group(`added.${index}`)
    row.retype('description', description)
    row.retype('amount', amount)
    row.retype('reason', reason)
  }
}
