import { json } from '../db/json.ts'
import type { BillingSettings } from '../db/schema/bills.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { cents } from '../lib/decimal.ts'

const MOST_WORDS = 1000
const MOST_LINK = 500

/** Reads what bills say, and what the owner wants around them. */
export function readBilling(fields: FormFields): FormReading<BillingSettings> {
  const words = (language: 'En' | 'Es') =>
    fields.lines(`payWords${language}`, {
      most: MOST_WORDS,
      tooLong: `Keep it under ${MOST_WORDS} characters.`,
    })
  const both = { en: words('En'), es: words('Es') }
  if (both.en === '' && both.es !== '') fields.fault('payWordsEn', 'Write it in English, too.')
  const money = (name: string, missing: string) =>
    cents(fields.figure(name, { places: 2, most: 9_999_999, missing, outside: missing }) ?? 0)
  const outside = 'Give the years, from 1 to 30.'
  return fields.reading({
    words: both,
    link: readLink(fields),
    returnedFee: money('returnedFee', 'Give the fee. 0 if you charge none.'),
    reportFrom: money('reportFrom', 'Give an amount.'),
    keepYears: fields.wholeNumber('keepYears', { least: 1, most: 30, missing: outside, outside }) ?? 1,
  })
}

function readLink(fields: FormFields): string {
  const typed = fields.line('payLink', { most: MOST_LINK, tooLong: 'That’s too long for a link.' })
  if (typed === '') return ''
  const link = URL.canParse(typed) ? new URL(typed) : null
  const isGood = link?.protocol === 'https:' && link.username === '' && link.password === ''
  if (!isGood) fields.fault('payLink', 'Give a link that begins with https://.')
  return isGood ? link.href : ''
}

export async function changeBilling(deps: Deps, billing: BillingSettings): Promise<void> {
  await deps.db
    .updateTable('business')
    .set({ billing: json(billing) })
    .execute()
}
