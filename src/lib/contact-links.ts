/**
 * The address that opens a mail in the reader's own program, by RFC 6068: everything that is not plain is encoded, and
 * lines end in CR LF. Null without an address.
 */
export function mailto(email: string, subject: string, body: string): string | null {
  if (!email) return null
  const [to, about, words] = [email, subject, body.replaceAll('\n', '\r\n')].map(encodeURIComponent)
  return `mailto:${to!.replace('%40', '@')}?subject=${about}&body=${words}`
}

/** The address that opens an empty mail. Null without an address to send it to. */
export function plainMailto(email: string): string | null {
  return email === '' ? null : `mailto:${encodeURIComponent(email).replace('%40', '@')}`
}

/** The address that opens a text message, by RFC 5724. Null without a number. */
export function sms(phone: string, body: string): string | null {
  const digits = phone.replace(/[^+\d]/g, '')
  return digits ? `sms:${digits}?body=${encodeURIComponent(body)}` : null
}

/** A phone number as it was typed, with the address that dials it, by RFC 3966; null where it has no digits. */
export function telephone(phone: string): { words: string; address: string } | null {
  const digits = phone.replace(/[^+\d]/g, '')
  return /\d/.test(digits) ? { words: phone, address: `tel:${digits}` } : null
}

/** The address that shows a place on whatever map a device has, by RFC 5870: nowhere, with what to look for. */
export function mapAddress({ street, postcode }: { street: string; postcode: string }): string {
  return `geo:0,0?q=${encodeURIComponent([street, postcode].filter(Boolean).join(', '))}`
}
