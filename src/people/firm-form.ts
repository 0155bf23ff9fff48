import type { FormFields } from '../http/form-fields.ts'
import type { FormReading, Typed } from '../http/posted.ts'
import { isEmailAddress } from '../lib/email-address.ts'
import type { Firm } from '../places/firms.ts'

const LONG = 'That’s too long.'

/** Reads what is agreed with a firm or an association; each of it may be left out. */
export function readFirm(fields: FormFields, papers: { id: number }[]): FormReading<Firm> {
  const line = (name: string, most: number) => fields.line(name, { most, tooLong: LONG })
  const until = fields.text('exemptUntil')
  const firm: Firm = {
    needs_order: fields.tick('needsOrder'),
    days_to_pay: fields.wholeNumber('daysToPay', { most: 365, outside: 'Give 0 to 365 days.' }),
    bill_name: line('billName', 120),
    bill_email: line('billEmail', 254),
    bill_address: fields.lines('billAddress', { most: 500, tooLong: LONG }),
    exempt_number: line('exemptNumber', 120),
    exempt_until: until === '' ? null : fields.day('exemptUntil', 'Give the last day as a date.'),
    paper_ids: papers.map(({ id }) => id).filter(id => fields.ticks('papers').includes(String(id))),
    rules: fields.lines('rules', { most: 2000, tooLong: LONG }),
  }
  if (firm.bill_email !== '' && !isEmailAddress(firm.bill_email))
    fields.fault('billEmail', 'That doesn’t look like an email address.')
  if (until !== '' && firm.exempt_number === '')
    fields.fault('exemptNumber', 'Give the certificate’s number too.')
  return fields.reading(firm)
}

/** What the form shows of it. */
export function firmTyped(firm: Firm | undefined): Typed {
  return {
    needsOrder: firm?.needs_order ? 'yes' : '',
    daysToPay: firm?.days_to_pay?.toString() ?? '',
    billName: firm?.bill_name ?? '',
    billEmail: firm?.bill_email ?? '',
    billAddress: firm?.bill_address ?? '',
    exemptNumber: firm?.exempt_number ?? '',
    exemptUntil: firm?.exempt_until ?? '',
    rules: firm?.rules ?? '',
  }
}

/** Reads the customer's number of an order; none takes it away. */
export function readOrderNumber(fields: FormFields): FormReading<string> {
  return fields.reading(fields.line('orderNumber', { most: 60, tooLong: LONG }))
}
