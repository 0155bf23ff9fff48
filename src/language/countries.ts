import type { Language } from './language.ts'

/** The countries to pick from, by their ISO 3166 codes; ZZ, a code that no country has, stands for any other. */
export const COUNTRIES = {
  US: 'United States',
  AU: 'Australia',
  CA: 'Canada',
  GB: 'United Kingdom',
  IE: 'Ireland',
  MX: 'Mexico',
  NZ: 'New Zealand',
  ZA: 'South Africa',
  ZZ: 'Another country',
} as const

export type Country = keyof typeof COUNTRIES

/** The words that change from country to country: a sentence has them as {meters} and so on. */
export type WordOfCountry = 'postcodeWord' | 'PostcodeWord' | 'meters' | 'centimeters' | 'color'

type Words = Record<WordOfCountry, string>

const american: Words = {
  postcodeWord: 'ZIP code',
  PostcodeWord: 'ZIP code',
  meters: 'meters',
  centimeters: 'centimeters',
  color: 'color',
}

const elsewhere: Words = {
  postcodeWord: 'postcode',
  PostcodeWord: 'Postcode',
  meters: 'metres',
  centimeters: 'centimetres',
  color: 'colour',
}

const postalCode: Pick<Words, 'postcodeWord' | 'PostcodeWord'> = {
  postcodeWord: 'postal code',
  PostcodeWord: 'Postal code',
}

const spanish: Words = {
  postcodeWord: 'código postal',
  PostcodeWord: 'Código postal',
  meters: 'metros',
  centimeters: 'centímetros',
  color: 'color',
}

const english: Partial<Record<Country, Words>> = {
  US: american,
  CA: { ...elsewhere, ...postalCode },
  MX: { ...american, ...postalCode },
  ZA: { ...elsewhere, ...postalCode },
}

/** The words of a country, a code as stored, in a language: "labor" is written alike in all of them. */
export function wordsOf(country: string, language: Language): Readonly<Words> {
  if (language === 'es') return spanish
  return english[country as Country] ?? elsewhere
}

/** Whether addresses there have a ZIP code: five digits, or nine. */
export function hasZipCodes(country: string): boolean {
  return country === 'US'
}

/** The country of a business that has not said: metric ones hardly ever work in the United States. */
export function countryOfUnits(units: 'us' | 'metric'): Country {
  return units === 'us' ? 'US' : 'ZZ'
}
