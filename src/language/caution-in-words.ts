import type { CautionCode } from '../estimate/table/caution.ts'
import * as cautions from './cautions.ts'
import type { Language } from './language.ts'
import { tOf } from './sentences.ts'
import { unitsInWords } from './units-in-words.ts'

const t = tOf(cautions)

/** A warning as people read it: its sentence with the figures' units in the reader's words. */
export function cautionInWords(
  { code, params }: { code: CautionCode; params: Record<string, string> },
  language: Language,
): string {
  const figures = Object.entries(params).map(([name, figure]) => [name, unitsInWords(figure, language)])
  return t(language, `caution.${code}`, Object.fromEntries(figures))
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
