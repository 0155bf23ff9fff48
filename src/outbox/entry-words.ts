import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { CalendarEntry, When } from './calendar.ts'

/** What an entry says to the homeowner: about which request, in whose words, with the street where it may be said. */
export interface ToldAs {
  number: string
  business: string
  language: Language
  location: string
  link: string
}

/** How things stand with a visit, or with the work of a request. */
export interface Dated {
  sequence: number
  when: When
  isCanceled: boolean
}

/** A visit or the work of a request as its homeowner's calendar has it: one entry, whatever becomes of it. */
export function entryFor(
  { config }: Pick<Deps, 'config'>,
  kind: 'visit' | 'work',
  { sequence, when, isCanceled }: Dated,
  { number, business, language, location, link }: ToldAs,
): CalendarEntry {
  const uid = `${kind}-${number}@${new URL(config.publicUrl).hostname}`
  const summary = t(language, `calendar.${kind}`, { business, number })
  return { uid, sequence, when, isCanceled, summary, location, link }
}
