import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { cents } from '../lib/decimal.ts'
import type { BillWanted } from './make-bill.ts'

const MOST_LINES = 5
const MOST_WORDS = 100

/** Reads what is to be billed: the contractor's own lines `added.<n>`, and what the page showed. */
export function readBillWanted(fields: FormFields): FormReading<BillWanted> {
  const added = fields.rows('added').flatMap(row => {
    if (row.text('description') === '' && row.text('amount') === '') return []
    const description = row.line('description', {
      most: MOST_WORDS,
      missing: 'Say what the line is for.',
      tooLong: `Keep it under ${MOST_WORDS} characters.`,
    })
    const amount = row.amount('amount', 'Give the amount, such as 25 or -25 to take some off.')
    return [{ description, amount: cents(amount ?? 0) }]
  })
  if (added.length > MOST_LINES) fields.fault('added.0.description', `Up to ${MOST_LINES} lines of your own.`)
  const total = fields.text('total')
  return fields.reading({
    before: fields.carried('before'),
    added,
    total: /^-?\d{1,10}\.\d\d$/.test(total) ? total : '',
  })
}

/** Reads why a bill is undone. */
export function readCreditReason(fields: FormFields): FormReading<{ reason: string }> {
  const reason = fields.line('creditReason', {
    most: 300,
    missing: 'Say why. The customer reads this.',
    tooLong: 'Keep it under 300 characters.',
  })
  return fields.reading({ reason })
}
