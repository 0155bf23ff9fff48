import type { DigAnswer } from '../db/schema/jobs.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import type { Ticket } from './dig-ticket.ts'
import { type SheetSettings, ticketDates } from './settings.ts'

const MOST_ANSWERS = 20

/** Reads a ticket as it is entered; null where it has no number. Empty dates are worked out, where the settings say how. */
export function readTicket(
  fields: FormFields,
  settings: SheetSettings,
  say: Translate,
): FormReading<Ticket | null> {
  const tooLong = say('sheet.too-long')
  const number = fields.line('ticketNumber', { most: 60, tooLong })
  if (number === '') return fields.reading(null)
  const requested = fields.day('requested', say('sheet.say-requested')) ?? ''
  const worked = fields.text('from') === '' && fields.text('until') === '' && requested !== ''
  const dates = worked ? ticketDates(settings, requested) : null
  const from = dates?.from ?? fields.day('from', say('sheet.say-from')) ?? ''
  const until = dates?.until ?? fields.day('until', say('sheet.say-until')) ?? ''
  if (from && requested && from < requested) fields.fault('from', say('sheet.from-early'))
  if (from && until && until < from) fields.fault('until', say('sheet.until-early'))
  return fields.reading({ number, requested, from, until, answers: readAnswers(fields, say) })
}

function readAnswers(fields: FormFields, say: Translate): DigAnswer[] {
  const tooLong = say('sheet.too-long')
  return fields
    .rows('answers')
    .slice(0, MOST_ANSWERS)
    .flatMap(row => {
      const utility = row.line('utility', { most: 80, tooLong })
      const answer = row.line('answer', { most: 120, tooLong })
      if (utility === '' && answer !== '') row.fault('utility', say('sheet.say-utility'))
      return utility === '' ? [] : [{ utility, answer }]
    })
}

export function readDecision(fields: FormFields, say: Translate): FormReading<string> {
  const name = fields.line('decidedBy', {
    ...{ most: 80, tooLong: say('sheet.too-long'), missing: say('sheet.say-name') },
  })
  return fields.reading(name)
}

export function readPlaceNotes(
  fields: FormFields,
  say: Translate,
): FormReading<{ home: string; pile: string }> {
  const rules = { most: 300, tooLong: say('sheet.too-long') }
  return fields.reading({ home: fields.line('home', rules), pile: fields.line('pile', rules) })
}
