import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import { readInstant } from '../visits/visit-form.ts'

const MOST_WORDS = 500

/** Stand for a time where the homeowner would rather be rung, or wants no visit. */
export const CALL = 'call'
export const OFF = 'off'

/** What was picked: a moment, CALL or OFF; and the visit that was shown, 0 for none. */
export interface PickedTime {
  seen: number
  pick: string
  startsAt: Temporal.Instant | null
  words: string
}

/** Reads which time is picked, as an instant of ISO 8601. */
export function readPickedTime(fields: FormFields, say: Translate): FormReading<PickedTime> {
  const pick = fields.text('pick')
  const startsAt = pick === CALL || pick === OFF ? null : readInstant(pick)
  if (startsAt === undefined) fields.fault('pick', say('visits.missing'))
  const words = fields.lines('words', {
    most: MOST_WORDS,
    tooLong: say('booking.words-long', { most: MOST_WORDS }),
  })
  return fields.reading({ seen: fields.carried('seen'), pick, startsAt: startsAt ?? null, words })
}
