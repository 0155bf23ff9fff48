import { TURNED_DOWN_FOR, type WhyTurnedDown } from '../bookings/cannot-do.ts'
import type { DayDeclined } from '../bookings/day-asked.ts'
import type { Move } from '../bookings/move.ts'
import { readDay } from '../days/form.ts'
import { readStart } from '../days/start.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { addDays } from '../lib/dates.ts'
import { readFate } from '../payments/form.ts'
import type { Settling } from '../payments/settle.ts'
import { AGAIN, type NoAnswer } from './called.ts'

const LONGEST_HOLD = 366

/** Reads a note on a request. */
export function readNote(fields: FormFields): FormReading<{ note: string }> {
  const note = fields.lines('note', {
    most: 2000,
    missing: 'Write the note first.',
    tooLong: 'Keep the note under 2,000 characters.',
  })
  return fields.reading({ note })
}

/** Reads why a request is turned down, as `reason` and `words`; the last reason needs words. */
export function readWhyTurnedDown(fields: FormFields): FormReading<WhyTurnedDown> {
  const reason = fields.choice('reason', TURNED_DOWN_FOR, 'Say why it can’t be done.')
  const words = fields.lines('words', {
    most: 300,
    tooLong: 'Keep it under 300 characters.',
    ...(reason === 'other' ? { missing: 'Tell the homeowner why, in your own words.' } : {}),
  })
  return fields.reading({ reason: reason ?? 'other', words })
}

/** Reads the day that is booked for a homeowner, or a half of one (see startText). */
export function readBookedDay(fields: FormFields): FormReading<{ day: string }> {
  const day = readStart(fields.text('day'))
  if (!day) fields.fault('day', 'Choose a day.')
  return fields.reading({ day: day ?? '' })
}

/** Reads which day is confirmed or declined, as it was shown; and what may be offered instead, with a word of the staff. */
export function readAsked(fields: FormFields): FormReading<DayDeclined> {
  const offered = fields.text('offered')
  if (offered !== '' && !readDay(offered)) fields.fault('offered', 'Choose a day.')
  const words = fields.lines('whyNotThen', { most: 300, tooLong: 'Keep it under 300 characters.' })
  return fields.reading({ day: readStart(fields.text('asked')) ?? '', offered, words })
}

/** Reads to which day booked work is moved, and from which it was shown on. */
export function readMove(fields: FormFields): FormReading<Move> {
  const to = readStart(fields.text('newDay'))
  if (!to) fields.fault('newDay', 'Choose a day.')
  return fields.reading({ from: readStart(fields.text('from')) ?? '', to: to ?? '' })
}

/** Reads why the staff cancel a request, which the homeowner reads, and what becomes of a deposit. */
export function readWhyCanceled(
  fields: FormFields,
  today: string,
): FormReading<{ reason: string; settling: Settling | null }> {
  const reason = fields.lines('whyCanceled', {
    most: 300,
    missing: 'Tell the homeowner why, in your own words.',
    tooLong: 'Keep it under 300 characters.',
  })
  return fields.reading({ reason, settling: readFate(fields, today) })
}

/** Reads until when a request is on hold: a day after today, within a year. */
export function readHold(fields: FormFields, today: string): FormReading<{ until: string }> {
  const until = fields.day('until', 'Give the day on which it comes back, such as 2026-04-03.')
  if (until && until <= today) fields.fault('until', 'Give a day after today.')
  if (until && until > addDays(today, LONGEST_HOLD))
    fields.fault('until', 'That’s more than a year ahead. Is the year right?')
  return fields.reading({ until: until ?? '' })
}

/** Reads a call without an answer: from the list it is tomorrow that it is tried again. */
export function readNoAnswer(fields: FormFields): NoAnswer {
  const again = Object.keys(AGAIN).find(one => one === fields.text('again')) ?? '1'
  return { seen: fields.carried('calls'), again: again as NoAnswer['again'] }
}
