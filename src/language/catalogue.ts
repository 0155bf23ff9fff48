import * as account from './account.ts'
import * as beds from './beds.ts'
import * as booking from './booking.ts'
import { cautionsEn, cautionsEs } from './cautions.ts'
import * as common from './common.ts'
import { faultsEn, faultsEs } from './faults.ts'
import * as form from './form.ts'
import type { Language } from './language.ts'
import * as mail from './mail.ts'
import * as ownPage from './own-page.ts'
import * as quote from './quote.ts'
import * as range from './range.ts'
import * as rates from './rates.ts'
import * as requests from './requests.ts'
import * as staff from './staff.ts'

export const catalogue: Record<Language, Record<string, string>> = {
  en: {
    ...common.en,
    ...account.en,
    ...requests.en,
    ...booking.en,
    ...mail.en,
    ...beds.en,
    ...form.en,
    ...range.en,
    ...rates.en,
    ...ownPage.en,
    ...quote.en,
    ...staff.en,
    ...faultsEn,
    ...cautionsEn,
  },
  es: {
    ...common.es,
    ...account.es,
    ...requests.es,
    ...booking.es,
    ...mail.es,
    ...beds.es,
    ...form.es,
    ...range.es,
    ...rates.es,
    ...ownPage.es,
    ...quote.es,
    ...staff.es,
    ...faultsEs,
    ...cautionsEs,
  },
}

/**
 * The message of a key in a language, with its {params} filled in.
 * @throws when there is no such message: a page must never show a bare key
 */
export function t(language: Language, key: string, params: Record<string, string | number> = {}): string {
  const message = catalogue[language][key]
  if (message === undefined) throw new Error(`The catalogue has no message '${key}' in ${language}`)
  return message.replace(/\{(\w+)\}/g, (whole, name: string) => String(params[name] ?? whole))
}

export type Translate = (key: string, params?: Record<string, string | number>) => string

export function translator(language: Language): Translate {
  return (key, params) => t(language, key, params)
}
