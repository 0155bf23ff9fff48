import { addressKey } from './address-key.ts'
import { phoneKey } from './phone-key.ts'

/** Raised when the keys of what is stored come out otherwise; then all of them are made anew at the next start. */
const RULES = 1

/** By which rules and for which country keys are made. */
export function keyedAs(country: string): string {
  return `${RULES} ${country}`
}

/** What a customer is recognised by, in the country of the business: the phone in E.164, the mail address in one spelling. */
export function customerKeys({ phone, email }: { phone: string; email: string }, country: string) {
  return {
    phone_key: phoneKey(phone, country),
    email_key: emailKey(email),
    keyed_as: keyedAs(country),
  }
}

/** What a place is recognised by. */
export function placeKeys({ street, postcode }: { street: string; postcode: string }, country: string) {
  const key = addressKey(street, postcode)
  return { street_key: key.street, postcode_key: key.postcode, keyed_as: keyedAs(country) }
}

// What follows a + is the same box.
function emailKey(email: string): string | null {
  return email.toLowerCase().replace(/\+[^@]*@/, '@') || null
}
