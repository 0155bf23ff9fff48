import type { Told } from '../estimate/job/bed.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { type Contact, readEmail, readNote, readPhone, readPostcode } from './contact-form.ts'
import { readSpokenBeds, toldOf } from './put-in-beds.ts'

/** What somebody told on the phone; of the beds nothing where that is still to come. */
export interface PutIn {
  contact: Contact
  told: Told
  language: Language
}

const LANGUAGES = ['en', 'es'] as const
const LONG = 'That’s too long.'
/** A line each for as many beds as can be taken in, and for their stops. */
const LONGEST_BEDS = 16_000

/** Reads what was told: nothing has to be there but a name or a phone number. */
export function readPutIn(fields: FormFields, country: string, table: RateTable): FormReading<PutIn> {
  const say = translator('en', country)
  const line = (name: string, most: number) => fields.line(name, { most, tooLong: LONG })
  const phone = readPhone(fields, say)
  const contact: Contact = {
    name: line('name', 120) || phone,
    phone,
    email: readEmail(fields, say),
    street: line('street', 200),
    postcode: readPostcode(fields, country, say),
    preferredTimes: line('preferredTimes', 500),
    gate: line('gate', 200),
    dog: line('dog', 200),
    note: readNote(fields, say),
  }
  if (contact.name === '' && phone === '') fields.fault('name', 'Write a name or a phone number.')
  const told = readBeds(fields, table, contact.postcode)
  const language = fields.has('language')
    ? fields.choice('language', LANGUAGES, 'Pick a language.')
    : ('en' as const)
  return fields.reading({ contact, told, language: language ?? 'en' })
}

/** Reads the beds alone, one a line, all of one material. */
export function readBeds(fields: FormFields, table: RateTable, postcode: string): Told {
  const text = fields.lines('beds', { most: LONGEST_BEDS, tooLong: LONG })
  if (text === '') return toldOf([], postcode)
  const slugs = table.finishes.map(({ slug }) => slug)
  const finish = fields.choice('finish', slugs, 'Pick a material.')
  const spoken = readSpokenBeds(text, finish ?? slugs[0]!, table)
  if (spoken.ok) return { ...toldOf([], postcode), ...spoken.told }
  fields.fault('beds', spoken.fault)
  return toldOf([], postcode)
}

/** What a form of beds offers as materials. */
export function finishChoices(table: RateTable): { value: string; label: string }[] {
  return table.finishes.map(({ slug, name, soldOut }) => ({
    value: slug,
    label: soldOut ? `${name.en} (sold out)` : name.en,
  }))
}
