import { readStart } from '../days/start.ts'
import { mondayIn } from '../days/week.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import { type Declined, REASONS } from './not-this-time.ts'

const MOST_WORDS = 1000

/** Stands for a day where the homeowner would rather be rung. */
export const NO_DAY = 'none'

/** What is accepted: the revision that was read (0 when it can't be told), under which name, and the day or NO_DAY. */
export interface AcceptForm {
  revision: number
  typedName: string
  day: string
  /** The customer’s number of the order; '' where they have none. */
  orderNumber: string
}

/** Reads the form that accepts; a change to booked work is accepted without a day. */
export function readAcceptance(
  fields: FormFields,
  say: Translate,
  { choosesDay, choosesWeek, needsOrder }: Record<'choosesDay' | 'choosesWeek' | 'needsOrder', boolean>,
): FormReading<AcceptForm> {
  const typedName = fields.line('typedName', {
    most: 200,
    missing: say('booking.name-missing'),
    tooLong: say('booking.name-long'),
  })
  if (!fields.tick('read')) fields.fault('read', say('booking.tick-missing'))
  const day = choosesDay ? fields.text('day') : NO_DAY
  if (day !== NO_DAY && !readChosen(day))
    fields.fault('day', say(choosesWeek ? 'week.missing-or-call' : 'booking.day-missing'))
  const orderNumber = fields.line('orderNumber', {
    most: 60,
    missing: needsOrder ? say('booking.order-missing') : undefined,
    tooLong: say('booking.order-long'),
  })
  return fields.reading({ revision: fields.carried('revision'), typedName, day, orderNumber })
}

/** Reads the day that is chosen after accepting, or a half of one, or a week (see startText and weekText). */
export function readChosenDay(
  fields: FormFields,
  say: Translate,
  choosesWeek: boolean,
): FormReading<{ day: string }> {
  const day = readChosen(fields.text('day'))
  if (!day) fields.fault('day', say(choosesWeek ? 'week.missing' : 'booking.day-missing-only'))
  return fields.reading({ day: day ?? '' })
}

function readChosen(text: string): string | undefined {
  return mondayIn(text) ? text : readStart(text)
}

/** Reads a question about the price. */
export function readQuestion(fields: FormFields, say: Translate): FormReading<{ question: string }> {
  const question = fields.lines('question', {
    most: MOST_WORDS,
    missing: say('booking.question-missing'),
    tooLong: say('booking.words-long', { most: MOST_WORDS }),
  })
  return fields.reading({ question })
}

/** Reads why a quote is not taken, and the revision that was read. */
export function readWhyNot(fields: FormFields, say: Translate): FormReading<Declined> {
  const reason = fields.choice('reason', REASONS, say('booking.reason-missing'))
  const words = fields.lines('words', {
    most: MOST_WORDS,
    tooLong: say('booking.words-long', { most: MOST_WORDS }),
  })
  const revision = fields.has('revision') ? fields.carried('revision') : undefined
  return fields.reading({ reason: reason ?? 'other', words, revision })
}
