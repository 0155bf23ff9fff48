import { z } from 'zod'
import { groupOf, nestFields, textOf } from '../http/nested-fields.ts'

export const MOST_ROOM = 999

const hours = z
  .string()
  .trim()
  .regex(/^\d{1,3}([.,]\d{1,2})?$/)
  .transform(typed => typed.replace(',', '.'))

/** The crew hours typed for a day in the field `room.<day>`; undefined when they can't be read. */
export function readRoom(body: unknown, day: string): { typed: string; hours: string | undefined } {
  const typed = textOf(groupOf(nestFields(body).room)[day])
  return { typed, hours: hours.safeParse(typed).data }
}

const calendarDay = z.iso.date().refine(day => day >= '2000-01-01' && day <= '2999-12-31')

/** A date as in an address or a form, 'YYYY-MM-DD', of the years that a work day can have; undefined when it is none. */
export function readDay(value: unknown): string | undefined {
  return calendarDay.safeParse(value).data
}
