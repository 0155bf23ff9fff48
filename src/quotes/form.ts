import type { PriceLine } from '../estimate/price/price-lines.ts'
import type { Choices } from '../estimate/understood/choices.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { readAmount } from '../http/read-figure.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { composeLines, isAdjustable, totalOf } from './compose-lines.ts'
import type { QuoteWanted } from './make-quote.ts'
import { readTerms } from './terms-form.ts'

const LONGEST_NOTE = 2000
const LONGEST_REASON = 300
const MOST_ADDED = 20
const MOST_LABOR_HOURS = 9999

/** The quote's form as far as it could be read: it is shown again with its sums also where nothing is wrong. */
export interface QuoteReading {
  typed: Typed
  errors: Errors
  /** What to make the quote of; only what is shown where there are errors. */
  wanted: QuoteWanted
}

/** Reads the quote form against the price that was worked out on its terms; its choices are read beside it. */
export function readQuoteForm(
  fields: FormFields,
  price: { lines: PriceLine[] },
  choices: Choices | null = null,
): QuoteReading {
  const terms = readTerms(fields)
  const amounts = price.lines
    .filter(isAdjustable)
    .map((line, index) => readLine(fields.group(`lines.${index}`), cents(line.amount)))
  const added = fields.rows('added').slice(0, MOST_ADDED).flatMap(readAdded)
  const laborHours = readLaborHours(fields)
  const note = fields.lines('note', {
    most: LONGEST_NOTE,
    tooLong: `Keep the note under ${LONGEST_NOTE} characters.`,
  })
  const why = readWhy(fields)
  const composed = composeLines(price, { amounts, added }, terms.adjustment)
  const { typed, errors } = fields
  if (Object.keys(errors).length === 0 && new Decimal(totalOf(composed)).lt(0))
    fields.fault('', 'The total is less than zero. Change an amount.')
  const [revision, basis] = [fields.carried('revision'), fields.text('basis')]
  const asChange = fields.has('change') ? fields.text('change') === 'yes' : undefined
  const wanted = { revision, basis, asChange, amounts, added, laborHours, note, why, terms, choices }
  return { typed, errors, wanted }
}

// Left alone, the sentence follows the figures.
function readWhy(fields: FormFields): string | null {
  const why = fields.lines('why', {
    most: LONGEST_NOTE,
    tooLong: `Keep it under ${LONGEST_NOTE} characters.`,
  })
  return !fields.has('why') || why === fields.text('whyWas') ? null : why
}

function readLine(row: FormFields, workedOut: string) {
  const reason = row.line('reason', { most: LONGEST_REASON, tooLong: 'Say it in fewer words.' })
  if (isLeftAlone(row)) {
    row.retype('amount', workedOut)
    return { amount: workedOut, reason }
  }
  const amount = row.amount('amount', 'Give an amount, such as 120 or 120.50.') ?? workedOut
  if (amount !== workedOut && reason === '') row.fault('reason', 'Say why you changed the amount.')
  return { amount, reason }
}

// A line left alone follows what was worked out, also where that is another figure by now.
function isLeftAlone(row: FormFields): boolean {
  return !row.has('amount') || readAmount(row.text('amount')) === row.text('was')
}

// A row left empty is none.
function readAdded(row: FormFields): QuoteWanted['added'] {
  if (['description', 'amount', 'reason'].every(name => row.text(name) === '')) return []
  const text = (name: string, missing: string) =>
    row.line(name, { most: LONGEST_REASON, missing, tooLong: 'Say it in fewer words.' })
  return [
    {
      description: text('description', 'Say what this line is for.'),
      amount: row.amount('amount', 'Give an amount, such as 120 or -25.50.') ?? '0.00',
      reason: text('reason', 'Say why you added this line.'),
    },
  ]
}

function readLaborHours(fields: FormFields): string | null {
  const sentence = 'Give the labor hours, such as 6 or 6.5. The day keeps that many free.'
  const hours = fields.figure('laborHours', {
    places: 2,
    above: 0,
    most: MOST_LABOR_HOURS,
    missing: sentence,
    unreadable: sentence,
    outside: sentence,
  })
  return hours && cents(hours)
}
