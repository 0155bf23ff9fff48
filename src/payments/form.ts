import { PAYMENT_WAYS } from '../db/schema/payments.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { cents } from '../lib/decimal.ts'
import type { PaymentNoted } from './receive.ts'
import { ALL, type Settling } from './settle.ts'

const WAY = 'Say how it was paid.'

/** Reads a deposit as it was received, up to `today`. */
export function readDeposit(fields: FormFields, today: string): FormReading<PaymentNoted> {
  const amount = fields.figure('depositReceived', {
    places: 2,
    above: 0,
    most: 9_999_999,
    missing: 'Say how much was paid.',
    outside: 'Give an amount above zero.',
  })
  const day = readDayPaid(fields, 'depositDay', today)
  const way = fields.choice('depositWay', PAYMENT_WAYS, WAY)
  const nth = fields.carried('nth')
  return fields.reading({ nth, amount: cents(amount ?? 0), day, way: way ?? 'other' })
}

/** Reads what becomes of a deposit. */
export function readSettling(fields: FormFields, today: string): FormReading<Settling> {
  const back = fields.figure('back', {
    places: 2,
    most: 9_999_999,
    missing: 'Say how much you gave back. 0 if you keep all of it.',
  })
  const day = readDayPaid(fields, 'backDay', today)
  const way = fields.choice('backWay', PAYMENT_WAYS, WAY)
  return fields.reading({ back: cents(back ?? 0), day, way: way ?? 'other' })
}

const FATES = ['later', 'kept', 'part', 'back'] as const

/** Reads what becomes of a deposit as a request is canceled; null where it is left open, or none is held. */
export function readFate(fields: FormFields, today: string): Settling | null {
  if (!fields.has('fate')) return null
  const fate = fields.choice('fate', FATES, 'Say what becomes of the deposit.')
  if (fate === null || fate === 'later') return null
  if (fate === 'kept') return { back: '0.00', day: today, way: 'other' }
  const day = readDayPaid(fields, 'fateDay', today)
  const way = fields.choice('fateWay', PAYMENT_WAYS, WAY) ?? 'other'
  if (fate === 'back') return { back: ALL, day, way }
  const outside = 'Give an amount above zero.'
  const missing = 'Say how much you gave back.'
  const back = fields.figure('fateBack', { places: 2, above: 0, most: 9_999_999, missing, outside })
  return { back: cents(back ?? 0), day, way }
}

/** Reads the day on which money changed hands, up to `today`. */
export function readDayPaid(fields: FormFields, name: string, today: string): string {
  const day = fields.day(name, 'Say on which day.')
  if (day && day > today) fields.fault(name, 'That day hasn’t come yet.')
  return day ?? today
}
