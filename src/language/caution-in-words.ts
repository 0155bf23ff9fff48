import { type CautionCode, isBuiltIn } from '../estimate/table/caution.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import * as cautions from './cautions.ts'
import type { Language } from './language.ts'
import { tOf } from './sentences.ts'
import { unitsInWords } from './units-in-words.ts'

const t = tOf(cautions)

/** A warning as people read it: the owner's own words, else the program's, with the figures' units in the reader's words. */
export function cautionInWords(
  { code, params }: { code: string; params: Record<string, string> },
  { cautions }: Pick<RateTable, 'cautions'>,
  language: Language,
): string {
  const figures = Object.entries(params).map(([name, figure]) => [name, unitsInWords(figure, language)])
  const filled = Object.fromEntries(figures)
  const own = cautions.find(one => one.code === code)?.words[language]
  if (own) return own.replace(/\{(\w+)\}/g, (whole, name: string) => filled[name] ?? whole)
  return isBuiltIn(code) ? t(language, `caution.${code}`, filled) : ''
}

/** The program's own sentence in English, with its figures' names in braces; of one that it has. */
export function plainWords(code: CautionCode): string {
  return t('en', `caution.${code}`)
}

type InWords = Record<Language, string>

const OWN: InWords = { en: 'our own rule', es: 'nuestra propia regla' }
const GRAVEL: InWords = {
  en: 'CalRecycle: loose gravel, and 20% more when wet',
  es: 'CalRecycle: grava suelta, y 20% más cuando está mojada',
}
const FIRE_CODE: InWords = {
  en: 'Massachusetts fire code, 527 CMR 17',
  es: 'Código de incendios de Massachusetts, 527 CMR 17',
}

// What rate tables start with, also those that are stored; what the owner types is in his own words.
const STARTING: Record<string, InWords> = {
  'Our own rule': OWN,
  'This business’s own setting': OWN,
  'CalRecycle: loose gravel, and 20% more when wet': GRAVEL,
  'CalRecycle, gravel loose and 20 % more when wet': GRAVEL,
  'UF/IFAS Extension Polk County, Mulch, 2016': {
    en: 'UF/IFAS Extension Polk County, Mulch, 2016',
    es: 'UF/IFAS Extension del condado de Polk, Mulch, 2016',
  },
  'UF/IFAS Extension Polk County, Mulch, 2016; Alabama Cooperative Extension ANR-1359': {
    en: 'UF/IFAS Extension Polk County, Mulch, 2016; Alabama Cooperative Extension ANR-1359',
    es: 'UF/IFAS Extension del condado de Polk, Mulch, 2016; Extensión Cooperativa de Alabama, ANR-1359',
  },
  'Extension offices: 2 to 18 in, depending on which one you ask': {
    en: 'Extension offices: 2 to 18 in, depending on which one you ask',
    es: 'Oficinas de extensión agrícola: de 2 a 18 pulgadas, según a cuál se pregunte',
  },
  'AVMA, 2003; ASPCA': { en: 'AVMA, 2003; ASPCA', es: 'AVMA, 2003, y ASPCA' },
  'Clemson Department of Pesticide Regulation; Wisconsin DATCP': {
    en: 'Clemson Department of Pesticide Regulation; Wisconsin DATCP',
    es: 'Departamento de Regulación de Plaguicidas de Clemson, y DATCP de Wisconsin',
  },
  'NIOSH 94-110; OSHA': { en: 'NIOSH 94-110; OSHA', es: 'NIOSH 94-110 y OSHA' },
  'Wet weights as you set them under each material': {
    en: 'the wet weights in your rates',
    es: 'los pesos en mojado de sus tarifas',
  },
  'Massachusetts State Fire Marshal': {
    en: 'Massachusetts State Fire Marshal',
    es: 'Jefe estatal de bomberos de Massachusetts',
  },
  'Massachusetts fire code, 527 CMR 17': FIRE_CODE,
  'Massachusetts 527 CMR 17': FIRE_CODE,
  'University of Florida, EDIS ENY-832': {
    en: 'University of Florida, EDIS ENY-832',
    es: 'Universidad de Florida, EDIS ENY-832',
  },
  'Ohio Revised Code 3781.25; Arkansas Code 14-271-109; Indiana Code 8-1-26-6': {
    en: 'Ohio Revised Code 3781.25; Arkansas Code 14-271-109; Indiana Code 8-1-26-6',
    es: 'Códigos de Ohio, 3781.25; Arkansas, 14-271-109; e Indiana, 8-1-26-6',
  },
}

/** Whose advice or rule a warning is, in the reader's language where a rate table starts with it. */
export function sourceInWords(source: string, language: Language): string {
  return STARTING[source]?.[language] ?? source
}
