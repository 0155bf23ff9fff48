import type { PriceLine } from '../estimate/price/price-lines.ts'
import { type Field, type Group, groupOf, textOf } from '../http/nested-fields.ts'
import { readAmount, readFigure } from '../http/read-figure.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { composeLines, isAdjustable, totalOf } from './compose-lines.ts'
import type { QuoteWanted } from './make-quote.ts'
import { readTerms } from './terms-form.ts'

const LONGEST_NOTE = 2000
const LONGEST_REASON = 300
const MOST_ADDED = 20
const MOST_CREW_HOURS = 9999

export type Errors = Record<string, string>

export interface QuoteReading {
  /** What was typed, by the names of the fields. */
  values: Record<string, string>
  errors: Errors
  wanted: QuoteWanted
}

/** Reads the quote form against the price that was worked out on its terms; `wanted` may be used when there are no errors. */
export function readQuoteForm(form: Group, price: { lines: PriceLine[] }): QuoteReading {
  const { terms, errors } = readTerms(form)
  const amounts = price.lines.filter(isAdjustable).map((line, index) => {
    const typed = rowOf(form.lines, index)
    return readLine(typed, `lines.${index}`, cents(line.amount), errors)
  })
  const added = listOf(form.added)
    .slice(0, MOST_ADDED)
    .flatMap((typed, index) => readAdded(typed, `added.${index}`, errors))
  const crewHours = readCrewHours(textOf(form.crewHours), errors)
  const note = textOf(form.note).trim()
  if (note.length > LONGEST_NOTE) errors.note = `Keep the note under ${LONGEST_NOTE} characters.`
  const composed = composeLines(price, { amounts, added }, terms.adjustment)
  if (Object.keys(errors).length === 0 && new Decimal(totalOf(composed)).lt(0))
    errors[''] = 'The lines come to less than nothing. Change an amount.'
  const revision = Number(/^\d{1,6}$/.exec(textOf(form.revision))?.[0] ?? 0)
  const basis = textOf(form.basis)
  const values = flatten(form)
  amounts.forEach(({ amount }, index) => {
    if (isLeftAlone(rowOf(form.lines, index))) values[`lines.${index}.amount`] = amount
  })
  return { values, errors, wanted: { revision, basis, amounts, added, crewHours, note, terms } }
}

// A line left alone follows what was worked out, also where that is another figure by now.
function isLeftAlone(typed: Group): boolean {
  return typed.amount === undefined || readAmount(textOf(typed.amount)) === textOf(typed.was)
}

function readLine(typed: Group, name: string, workedOut: string, errors: Errors) {
  const amount = isLeftAlone(typed) ? workedOut : readAmount(textOf(typed.amount))
  const reason = textOf(typed.reason).trim()
  if (amount === null) errors[`${name}.amount`] = 'Give an amount, as 120 or 120.50.'
  else if (amount !== workedOut && !reason)
    errors[`${name}.reason`] = 'Say why the amount differs from what was worked out.'
  checkReason(reason, name, errors)
  return { amount: amount ?? workedOut, reason }
}

// A row left empty is none.
function readAdded(typed: Group, name: string, errors: Errors): QuoteWanted['added'] {
  const [description, typedAmount, reason] = ['description', 'amount', 'reason'].map(field =>
    textOf(typed[field]).trim(),
  ) as [string, string, string]
  if (!description && !typedAmount && !reason) return []
  const amount = readAmount(typedAmount)
  if (!description) errors[`${name}.description`] = 'Say what this line is for.'
  if (description.length > LONGEST_REASON) errors[`${name}.description`] = 'Say it in fewer words.'
  if (amount === null) errors[`${name}.amount`] = 'Give an amount, as 120 or -25.50.'
  if (!reason) errors[`${name}.reason`] = 'Say why this line was added.'
  checkReason(reason, name, errors)
  return [{ description, amount: amount ?? '0.00', reason }]
}

function checkReason(reason: string, name: string, errors: Errors) {
  if (reason.length > LONGEST_REASON) errors[`${name}.reason`] = 'Say it in fewer words.'
}

function readCrewHours(typed: string, errors: Errors): string | null {
  const hours = readFigure(typed, 2)
  if (hours === null || Number(hours) <= 0 || Number(hours) > MOST_CREW_HOURS) {
    errors.crewHours = 'Give the crew hours, as 6 or 6.5: the day keeps so much room.'
    return null
  }
  return cents(hours)
}

function flatten(field: Field, prefix = ''): Record<string, string> {
  if (typeof field === 'string') return { [prefix]: field }
  const entries = Object.entries(field) as [string, Field][]
  return Object.assign(
    {},
    ...entries.map(([name, inner]) => flatten(inner, prefix ? `${prefix}.${name}` : name)),
  )
}

function rowOf(list: Field | undefined, index: number): Group {
  return listOf(list)[index] ?? {}
}

function listOf(list: Field | undefined): Group[] {
  if (!Array.isArray(list)) return []
  return list.map(groupOf)
}
