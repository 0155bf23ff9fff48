import { readDay } from '../days/form.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'

/** Reads a note on a request. */
export function readNote(fields: FormFields): FormReading<{ note: string }> {
  const note = fields.lines('note', {
    most: 2000,
    missing: 'Write the note first.',
    tooLong: 'Keep the note under 2,000 characters.',
  })
  return fields.reading({ note })
}

/** Reads why a request can't be done. */
export function readReason(fields: FormFields): FormReading<{ reason: string }> {
  const reason = fields.lines('reason', {
    most: 300,
    missing: 'Say why it can’t be done.',
    tooLong: 'Keep it under 300 characters.',
  })
  return fields.reading({ reason })
}

/** Reads the day that is booked for a homeowner, 'YYYY-MM-DD'. */
export function readBookedDay(fields: FormFields): FormReading<{ day: string }> {
  const day = readDay(fields.text('day'))
  if (!day) fields.fault('day', 'Choose a day.')
  return fields.reading({ day: day ?? '' })
}
