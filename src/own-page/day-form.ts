import { readStart } from '../days/start.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'

const MOST_WORDS = 500

/** Stands for a day where the homeowner would rather be rung. */
export const NO_DAY = 'none'

/** Reads to which day the work is to be moved, from which it was shown on; NO_DAY where none suits. */
export function readOtherDay(
  fields: FormFields,
  say: Translate,
): FormReading<{ from: string; day: string; words: string }> {
  const typed = fields.text('day')
  const day = typed === NO_DAY ? NO_DAY : readStart(typed)
  if (!day) fields.fault('day', say('booking.day-missing'))
  const words = fields.lines('words', {
    most: MOST_WORDS,
    tooLong: say('booking.words-long', { most: MOST_WORDS }),
  })
  return fields.reading({ from: readStart(fields.text('from')) ?? '', day: day ?? '', words })
}
