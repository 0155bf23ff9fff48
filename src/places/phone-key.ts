import { type CountryCode, isSupportedCountry, parsePhoneNumberFromString } from 'libphonenumber-js/min'

/**
 * A phone number in E.164, '+15125550177', whatever the spelling: one without a country's code is of the country that is
 * given (ISO 3166). An extension is left out. Null where it can't be a number there.
 */
export function phoneKey(phone: string, country: string): string | null {
  const region: CountryCode | undefined = isSupportedCountry(country) ? country : undefined
  const parsed = parsePhoneNumberFromString(phone, region)
  return parsed?.isPossible() ? parsed.number : null
}
