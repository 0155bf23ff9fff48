import type { Choices } from '../estimate/understood/choices.ts'
import { choicesTyped } from './choices-form.ts'
import { isAdjustable } from './compose-lines.ts'
import { conditionsTyped } from './conditions-form.ts'
import { crewTyped } from './crew-form.ts'
import type { QuoteReading } from './form.ts'
import type { Priced } from './pricing.ts'
import type { QuoteWithLines } from './queries.ts'
import { termsTyped } from './terms-form.ts'

/**
 * A first quote stands as worked out; a new revision begins from the one before where its lines are still the same. One of what
 * was accepted begins with `offered` to choose from.
 */
export function startingPoint(
  priced: Priced,
  before: QuoteWithLines | undefined,
  why: string,
  offered: Choices | null = null,
): QuoteReading {
  const { price, terms } = priced
  const workedOut = price.lines.filter(isAdjustable)
  const kept = before?.lines.filter(isAdjustable) ?? []
  const alike =
    kept.length === workedOut.length &&
    workedOut.every(
      (line, index) => line.slug === kept[index]!.slug && line.amount === kept[index]!.worked_out,
    )
  const amounts = workedOut.map((line, index) => ({
    amount: alike ? kept[index]!.amount : line.amount,
    reason: (alike && kept[index]!.reason) || '',
  }))
  const added = (before?.lines ?? [])
    .filter(line => line.kind === 'other')
    .map(({ description, amount, reason }) => ({
      description: description ?? '',
      amount,
      reason: reason ?? '',
    }))
  const laborHours = alike ? before!.labor_hours : price.laborHoursTotal
  const note = before?.note ?? ''
  const own = ownWords(before)
  // What was picked is part of the beds by now.
  const conditions = before?.conditions ?? null
  const choices = before?.accepted_at ? offered : (before?.choices ?? null)
  const typed = Object.fromEntries([
    ...amounts.flatMap((row, index) => fieldsOf(`lines.${index}`, row)),
    ...added.flatMap((row, index) => fieldsOf(`added.${index}`, row)),
    ['laborHours', laborHours],
    ['note', note],
    ['why', own ?? why],
    ...Object.entries(choicesTyped(choices)),
    ...Object.entries(conditionsTyped(conditions)),
    ...Object.entries(termsTyped(terms)),
    ...Object.entries(crewTyped(terms.crew, priced.rates.body)),
  ])
  return {
    typed,
    errors: {},
    wanted: {
      revision: 0,
      basis: null,
      amounts,
      added,
      laborHours,
      note,
      why: own,
      terms,
      choices,
      conditions,
    },
  }
}

// The contractor's own are the same in both languages.
function ownWords(before: QuoteWithLines | undefined): string | null {
  const { en, es } = before?.why ?? { en: '', es: '' }
  return en !== '' && en === es ? en : null
}

function fieldsOf(name: string, row: Record<string, string>): [string, string][] {
  return Object.entries(row).map(([field, text]) => [`${name}.${field}`, text])
}
