import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { findDigDecisions, findTicket } from './dig-ticket.ts'
import type { SheetSettings } from './settings.ts'

/** What the sheet of a job that digs says of it: what is entered, and never that a job is cleared. */
export interface DigView {
  version: number
  said: string[]
  decided: string[]
  hint: string
  rows: string[]
  values: Typed
}

const SPARE_ROWS = 3

/** `days` are those on which the work is booked. */
export async function viewDig(
  deps: Deps,
  { country, time_zone }: Business,
  { id, days }: { id: number; days: string[] },
  { digWaitDays, digValidDays, digSource }: SheetSettings,
  language: Language,
): Promise<DigView> {
  const { version, ticket } = await findTicket(deps.db, id)
  const day = (one: string) => dayInWords(one, language, true)
  const outside = ticket ? days.filter(one => one < ticket.from || one > ticket.until) : []
  const answers = ticket?.answers ?? []
  const none = t(language, country === 'US' ? 'sheet.no-811' : 'sheet.no-ticket')
  const stands = ticket && {
    ...{ number: ticket.number, requested: day(ticket.requested) },
    ...{ from: day(ticket.from), until: day(ticket.until) },
  }
  const decisions = await findDigDecisions(deps.db, id)
  const isKnown = digWaitDays !== null && digValidDays !== null
  const source = digSource && t(language, 'sheet.source', { source: digSource })
  return {
    version,
    said: [
      stands ? t(language, 'sheet.ticket', stands) : none,
      ...outside.map(one => t(language, 'sheet.outside', { day: day(one) })),
      ...answers.map(answer => t(language, 'sheet.answer', { ...answer })),
      ...(ticket && answers.length === 0 ? [t(language, 'sheet.no-answers')] : []),
      t(language, 'sheet.private'),
    ],
    decided: decisions.length
      ? decisions.map(({ name, ticket_version, made_at, made_by_name: by }) =>
          t(language, ticket_version === version ? 'sheet.decided' : 'sheet.decided-before', {
            ...{ name, by, when: momentInWords(made_at, time_zone, language) },
          }),
        )
      : [t(language, 'sheet.nobody-decided')],
    hint: isKnown
      ? t(language, 'sheet.dates-hint', { wait: String(digWaitDays), valid: String(digValidDays), source })
      : t(language, 'sheet.dates-ask'),
    rows: Array.from({ length: answers.length + SPARE_ROWS }, (_, index) => `answers.${index}`),
    values: {
      ...{ ticketNumber: ticket?.number ?? '', requested: ticket?.requested ?? '' },
      ...{ from: ticket?.from ?? '', until: ticket?.until ?? '' },
      ...Object.fromEntries(
        answers.flatMap(({ utility, answer }, index) => [
          [`answers.${index}.utility`, utility],
          [`answers.${index}.answer`, answer],
        ]),
      ),
    },
  }
}
