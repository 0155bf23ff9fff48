import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import { hasZipCodes } from '../language/countries.ts'
import { isEmailAddress } from '../lib/email-address.ts'
import { oneLine, severalLines } from '../lib/typed-text.ts'

/** Who sends, and where the beds are. */
export interface Contact {
  name: string
  phone: string
  email: string
  street: string
  postcode: string
  preferredTimes: string
  gate: string
  dog: string
  note: string
  /** 'yes' where offers may come that way. */
  offersMail?: string
  offersText?: string
}

const CONTACT_FIELDS = [
  'name',
  'phone',
  'email',
  'street',
  'postcode',
  'preferredTimes',
  'gate',
  'dog',
  'note',
] as const satisfies (keyof Contact)[]

const OFFER_FIELDS = ['offersMail', 'offersText'] as const satisfies (keyof Contact)[]

/** Reads who sends, and where the beds are: the street, and a ZIP code or postcode as it is in this country. */
export function readContact(fields: FormFields, country: string, say: Translate): FormReading<Contact> {
  const tooLong = say('contact.too-long')
  const contact: Contact = {
    name: fields.line('name', { most: 120, missing: say('contact.name-missing'), tooLong }),
    phone: readPhone(fields, say),
    email: readEmail(fields, say),
    street: fields.line('street', { most: 200, missing: say('contact.street-missing'), tooLong }),
    postcode: readPostcode(fields, country, say, say('contact.postcode-missing')),
    preferredTimes: fields.lines('preferredTimes', { most: 500, tooLong }),
    gate: fields.line('gate', { most: 200, tooLong }),
    dog: fields.line('dog', { most: 200, tooLong }),
    note: readNote(fields, say),
    offersMail: fields.tick('offersMail') ? 'yes' : '',
    offersText: fields.tick('offersText') ? 'yes' : '',
  }
  if (contact.phone === '' && contact.email === '') fields.fault('phone', say('contact.phone-or-email'))
  return fields.reading(contact)
}

/** A phone number, which may be left out. */
export function readPhone(fields: FormFields, say: Translate): string {
  const phone = fields.line('phone', { most: 40, tooLong: say('contact.too-long') })
  if (phone !== '' && !isPhone(phone)) fields.fault('phone', say('contact.phone-unreadable'))
  return phone
}

/** What a homeowner wants to say besides, in several lines; `missing` is said where it has to be there. */
export function readNote(fields: FormFields, say: Translate, missing?: string): string {
  return fields.lines('note', { most: 4000, tooLong: say('contact.too-long'), missing })
}

/** A mail address, which may be left out. */
export function readEmail(fields: FormFields, say: Translate): string {
  const email = fields.line('email', { most: 254, tooLong: say('contact.too-long') })
  if (email !== '' && !isEmailAddress(email)) fields.fault('email', say('contact.email-unreadable'))
  return email
}

/** A ZIP in any spelling: 43004, 43004-1234, 43004 1234; elsewhere letters and digits, with spaces or hyphens. */
export function readPostcode(fields: FormFields, country: string, say: Translate, missing?: string): string {
  const isZip = hasZipCodes(country)
  const pattern = isZip ? /^\d{5}([\s-]*\d{4})?$/ : /^[A-Za-z0-9][A-Za-z0-9 -]{1,10}[A-Za-z0-9]$/
  const postcode = fields.line('postcode', { most: 20, missing, tooLong: say('contact.too-long') })
  if (postcode !== '' && !pattern.test(postcode))
    fields.fault('postcode', say(isZip ? 'contact.zip-unreadable' : 'contact.postcode-unreadable'))
  return postcode
}

/** The contact fields as typed, for the page to show again; what is missing is ''. */
export function typedContact(fields: Record<string, unknown>): Contact {
  const typed = [...CONTACT_FIELDS, ...OFFER_FIELDS].map(field => [
    field,
    typeof fields[field] === 'string' ? fields[field] : '',
  ])
  return Object.fromEntries(typed) as Contact
}

/** The contact fields that tell one request from another, as they are kept, taken or not: what readContact gives of the same fields, and of itself. */
export function cleanContact(fields: Record<string, unknown>): Contact {
  const typed = typedContact(fields)
  const clean = CONTACT_FIELDS.map(field => {
    const inLines = field === 'preferredTimes' || field === 'note'
    return [field, inLines ? severalLines(typed[field]) : oneLine(typed[field])]
  })
  return Object.fromEntries(clean) as Contact
}

/**
 * Who and where as typed, as hidden fields for a form of the beds that has to come first; none where nothing was. The
 * ZIP or postcode is a field of that form itself.
 */
export function carriedContact(fields: Record<string, unknown>): [name: string, value: string][] {
  const { postcode: _, ...typed } = typedContact(fields)
  const carried = Object.entries(typed).filter(([, value]) => value !== '')
  if (carried.length === 0) return carried
  const ofForm = ['submissionKey', 'begun'].flatMap((name): [string, string][] => {
    const value = fields[name]
    return typeof value === 'string' ? [[name, value]] : []
  })
  return [...carried, ...ofForm]
}

/** Whether a text may be a phone number, in any spelling: +1 (614) 555-0199 ext. 4, 614.555.0199. */
export function isPhone(text: string): boolean {
  const digits = text.replace(/\D/g, '').length
  return digits >= 7 && digits <= 20 && /^[+\d\s().\-/x#extEXT]*$/.test(text)
}
