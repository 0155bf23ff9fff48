import { z } from 'zod'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { type Key, keyed, keyIn } from '../language/catalogue.ts'
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
}

export const CONTACT_FIELDS = [
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

export type ContactReading =
  | { ok: true; values: Contact }
  | { ok: false; typed: Contact; faults: Partial<Record<keyof Contact, Key>> }

const TOO_LONG: Key = 'contact.too-long'

const line = (most: number) => z.string().catch('').transform(oneLine).pipe(z.string().max(most, TOO_LONG))
const lines = (most: number) =>
  z.string().catch('').transform(severalLines).pipe(z.string().max(most, TOO_LONG))
const needed = (most: number, key: Key) =>
  z.string().catch('').transform(oneLine).pipe(z.string().min(1, key).max(most, TOO_LONG))

export const phone = line(40).refine(text => text === '' || isPhone(text), keyed('contact.phone-unreadable'))
export const email = line(254).refine(
  text => text === '' || isEmailAddress(text),
  keyed('contact.email-unreadable'),
)
export const note = lines(4000)

const shared = {
  name: needed(120, 'contact.name-missing'),
  phone,
  email,
  street: needed(200, 'contact.street-missing'),
  preferredTimes: lines(500),
  gate: line(200),
  dog: line(200),
  note,
}

/** Reads the contact fields as posted. Faults are keys of the message catalogue by field; what was typed is kept. */
export function readContact(fields: Record<string, unknown>, units: RateTable['units']): ContactReading {
  const schema = z
    .object({ ...shared, postcode: postcodeOf(units) })
    .refine(contact => contact.phone !== '' || contact.email !== '', {
      path: ['phone'],
      message: keyed('contact.phone-or-email'),
      // Said even while something else is wrong, so that all faults are told at once.
      when: () => true,
    })
  const result = schema.safeParse(fields)
  if (result.success) return { ok: true, values: result.data }
  const faults: Partial<Record<keyof Contact, Key>> = {}
  for (const { path, message } of result.error.issues) faults[path[0] as keyof Contact] ??= keyIn(message)
  return { ok: false, typed: typedContact(fields), faults }
}

/** The contact fields as typed, for the page to show again; what is missing is ''. */
export function typedContact(fields: Record<string, unknown>): Contact {
  const typed = CONTACT_FIELDS.map(field => [field, typeof fields[field] === 'string' ? fields[field] : ''])
  return Object.fromEntries(typed) as Contact
}

/**
 * Who and where as typed, as hidden fields for a form of the beds that has to come first; none where nothing was. The
 * ZIP or postcode is a field of that form itself.
 */
export function carriedContact(fields: Record<string, unknown>): [name: string, value: string][] {
  const { postcode: _, ...typed } = typedContact(fields)
  const carried = Object.entries(typed).filter(([, value]) => value !== '')
  const { submissionKey } = fields
  if (carried.length === 0 || typeof submissionKey !== 'string') return carried
  return [...carried, ['submissionKey', submissionKey]]
}

// Any spelling: 43004, 43004-1234, 43004 1234; elsewhere letters and digits, with spaces or hyphens.
function postcodeOf(units: RateTable['units']) {
  const pattern = units === 'us' ? /^\d{5}([\s-]*\d{4})?$/ : /^[A-Za-z0-9][A-Za-z0-9 -]{1,10}[A-Za-z0-9]$/
  return needed(20, `contact.postcode-missing-${units}`).refine(
    text => text === '' || pattern.test(text),
    keyed(`contact.postcode-unreadable-${units}`),
  )
}

// Any spelling: +1 (614) 555-0199 ext. 4, 614.555.0199.
function isPhone(text: string): boolean {
  const digits = text.replace(/\D/g, '').length
  return digits >= 7 && digits <= 20 && /^[+\d\s().\-/x#extEXT]*$/.test(text)
}
