import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import { readDate } from '../lib/dates.ts'

const MOST_ROOM = 999.99

/** Reads the labor hours typed for a day in the field `room.<day>`, as a plain decimal, and whether it is kept as a makeup day. */
export function readRoom(
  fields: FormFields,
  day: string,
  say: Translate,
): FormReading<{ hours: string; isMakeup: boolean }> {
  const sentence = say('days.room-unreadable', { most: Math.floor(MOST_ROOM) })
  const hours = fields.figure(`room.${day}`, {
    places: 2,
    most: MOST_ROOM,
    missing: sentence,
    unreadable: sentence,
    outside: sentence,
  })
  return fields.reading({ hours: hours ?? '0', isMakeup: fields.tick(`makeup.${day}`) })
}

/** A date as in an address or a form, 'YYYY-MM-DD', of the years that a work day can have; undefined when it is none. */
export function readDay(value: unknown): string | undefined {
  const day = typeof value === 'string' ? readDate(value) : null
  return day !== null && day >= '2000-01-01' && day <= '2999-12-31' ? day : undefined
}
