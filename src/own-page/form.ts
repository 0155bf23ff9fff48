import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Translate } from '../language/catalogue.ts'
import { oneLine } from '../lib/typed-text.ts'
import { isPhone, readNote, readPhone } from '../requests/contact-form.ts'

const LONGEST_REASON = 500

/** Reads another phone number; it may be none where a mail address is known. */
export function readNewPhone(
  fields: FormFields,
  hasEmail: boolean,
  say: Translate,
): FormReading<{ phone: string }> {
  const phone = readPhone(fields, say)
  if (phone === '' && !hasEmail) fields.fault('phone', say('contact.phone-or-email'))
  return fields.reading({ phone })
}

/** Reads where to text to, where no phone number is known. */
export function readPhoneForTexts(fields: FormFields, say: Translate): FormReading<{ phone: string }> {
  const typed = fields.line('textPhone', {
    most: 40,
    missing: say('own.text-me-missing'),
    tooLong: say('contact.too-long'),
  })
  if (typed !== '' && !isPhone(typed)) fields.fault('textPhone', say('contact.phone-unreadable'))
  return fields.reading({ phone: typed })
}

/** Reads what is added to the note. */
export function readAddedNote(fields: FormFields, say: Translate): FormReading<{ note: string }> {
  return fields.reading({ note: readNote(fields, say, say('own.note-missing')) })
}

/** Why it is called off, in a line; nobody has to say, and what is too long is cut. */
export function readWhyOff(fields: FormFields): string {
  return oneLine(fields.text('reason')).slice(0, LONGEST_REASON)
}
