import { plainTerms, type Terms } from '../estimate/job/terms.ts'
import type { FormFields } from '../http/form-fields.ts'
import { readAmount, readFigure } from '../http/read-figure.ts'
import { Decimal } from '../lib/decimal.ts'
import { readCrew, sameCrew } from './crew-form.ts'

const LONGEST = 120

/** What was typed of the terms; adjustment as '-10%' or '25', below zero a discount; rates of tax in percent, '8.25'. */
export type TermsTyped = Record<
  | 'work'
  | 'exempt'
  | 'adjustment'
  | 'adjustmentReason'
  | 'certificate'
  | 'taxRate'
  | 'secondRate'
  | 'taxReason',
  string
>

/** The fields of a form that its terms are read from. */
export const TERMS = Object.keys(termsTyped(plainTerms)) as (keyof TermsTyped)[]

/** Reads the terms of a quote's form. */
export function readTerms(fields: FormFields): Terms {
  const exempt = fields.line('exempt', {
    most: LONGEST,
    tooLong: `Keep the certificate number under ${LONGEST} characters.`,
  })
  const typed = fields.text('adjustment')
  const adjustment = readAdjustment(typed)
  if (typed !== '' && adjustment === null)
    fields.fault(
      'adjustment',
      'Give a percentage, such as -10%, or an amount, such as 25. A minus takes off.',
    )
  const reason = fields.line('adjustmentReason', {
    most: LONGEST,
    tooLong: `Keep it under ${LONGEST} characters.`,
    missing: adjustment ? 'Say why. The homeowner reads this.' : undefined,
  })
  const work = fields.text('work') === 'new' ? 'new' : 'upkeep'
  const certificate = fields.line('certificate', {
    most: LONGEST,
    tooLong: `Keep it under ${LONGEST} characters.`,
  })
  const rates = readRates(fields)
  const crew = readCrew(fields)
  return {
    work,
    exempt,
    adjustment: adjustment && { ...adjustment, reason },
    ...(certificate === '' ? {} : { certificate }),
    ...(rates ? { rates } : {}),
    ...(crew ? { crew } : {}),
  }
}

function readRates(fields: FormFields): Terms['rates'] | null {
  const [rate, second] = (['taxRate', 'secondRate'] as const).map(name => readRate(fields, name))
  const typed = fields.text('taxRate') !== '' || fields.text('secondRate') !== ''
  const reason = fields.line('taxReason', {
    most: LONGEST,
    tooLong: `Keep it under ${LONGEST} characters.`,
    missing: typed ? 'Say why this job has a different rate.' : undefined,
  })
  return rate === null && second === null ? null : { rate: rate!, second: second!, reason }
}

function readRate(fields: FormFields, name: 'taxRate' | 'secondRate'): string | null {
  const typed = fields.text(name)
  if (typed === '') return null
  const figure = readFigure(typed.replace(/\s*%$/, ''), 4)
  if (figure !== null && Number(figure) <= 100) return new Decimal(figure).div(100).toFixed()
  fields.fault(name, 'Give a rate in percent, such as 8.25, from 0 to 100.')
  return null
}

/** The terms as the fields of the form. */
export function termsTyped({ work, exempt, adjustment, certificate = '', rates }: Terms): TermsTyped {
  const percent = (rate: string | null | undefined) => (rate ? new Decimal(rate).times(100).toFixed() : '')
  return {
    work,
    exempt,
    adjustment: adjustmentTyped(adjustment),
    adjustmentReason: adjustment?.reason ?? '',
    certificate,
    taxRate: percent(rates?.rate),
    secondRate: percent(rates?.second),
    taxReason: rates?.reason ?? '',
  }
}

/** Whether two terms are the same, whatever the order of their keys. */
export function sameTerms(one: Terms, other: Terms): boolean {
  const [a, b] = [termsTyped(one), termsTyped(other)]
  return sameCrew(one.crew, other.crew) && TERMS.every(name => a[name] === b[name])
}

/** Whether a table or a quote has anything of tax or terms to show. */
export function arePlain({ crew: _, ...terms }: Terms): boolean {
  return sameTerms(terms, plainTerms)
}

function readAdjustment(typed: string): Omit<NonNullable<Terms['adjustment']>, 'reason'> | null {
  const share = /^(.*\d)\s*%$/.exec(typed)
  const amount = readAmount(share ? share[1]! : typed)
  if (amount === null || Number(amount) === 0) return null
  if (!share) return { by: 'money', value: amount }
  const value = new Decimal(amount).div(100)
  return value.lt(-1) || value.gt(10) ? null : { by: 'share', value: value.toString() }
}

function adjustmentTyped(adjustment: Terms['adjustment']): string {
  if (adjustment === null) return ''
  const { by, value } = adjustment
  return by === 'share' ? `${new Decimal(value).times(100)}%` : value
}
