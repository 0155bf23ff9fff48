import { PAYMENT_WAYS } from '../db/schema/payments.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { cents } from '../lib/decimal.ts'
import { readDayPaid } from './form.ts'
import type { BillPayment } from './pay.ts'
import type { ReturnedCheck } from './returned-check.ts'

const WAYS = [...PAYMENT_WAYS, 'credit'] as const
const MOST = 9_999_999

/** Reads money for a bill as it was received, up to `today`. */
export function readBillPayment(fields: FormFields, today: string): FormReading<BillPayment> {
  const amount = fields.figure('paid', {
    places: 2,
    above: 0,
    most: MOST,
    missing: 'Say how much was paid.',
    outside: 'Give an amount above zero.',
  })
  const tip = fields.figure('tip', { places: 2, most: MOST, outside: 'Give the tip, or leave it empty.' })
  const day = readDayPaid(fields, 'paidDay', today)
  const way = fields.choice('paidWay', WAYS, 'Say how it was paid.')
  if (way === 'credit' && Number(tip ?? 0) > 0) fields.fault('tip', 'A tip isn’t paid from a credit.')
  return fields.reading({
    nth: fields.carried('nth'),
    amount: cents(amount ?? 0),
    tip: cents(tip ?? 0),
    day,
    way: way ?? 'other',
  })
}

/** Reads what is given back of what was paid too much, or kept as credit. */
export function readGivenBack(fields: FormFields, today: string): FormReading<Omit<BillPayment, 'tip'>> {
  const amount = fields.figure('overBack', {
    places: 2,
    above: 0,
    most: MOST,
    missing: 'Say how much.',
    outside: 'Give an amount above zero.',
  })
  const day = readDayPaid(fields, 'overDay', today)
  const way = fields.choice('overWay', WAYS, 'Say how it went back.')
  return fields.reading({ nth: fields.carried('nth'), amount: cents(amount ?? 0), day, way: way ?? 'other' })
}

/** Reads a check that came back, of the payment with this id. */
export function readReturned(
  fields: FormFields,
  paymentId: number,
  today: string,
): FormReading<ReturnedCheck> {
  const returned = fields.group('returned').group(String(paymentId))
  const fee = returned.figure('fee', { places: 2, most: MOST, outside: 'Give the fee, or 0.' })
  const day = readDayPaid(returned, 'day', today)
  return fields.reading({ paymentId, day, fee: cents(fee ?? 0) })
}
