import { type CautionCode, PUBLISHED } from '../table/caution.ts'
import type { RateTable } from '../table/rate-table.ts'

type Caution = RateTable['cautions'][number]
type Figure = [us: string, metric: string]

const OWN = 'Our own rule'

/** Who reads each warning to begin with, by whose advice, and its figure where it has one. */
const START: Record<CautionCode, { readBy: Caution['readBy']; source: string; figure?: Figure }> = {
  'depth-over': {
    readBy: 'everyone',
    source: 'UF/IFAS Extension Polk County, Mulch, 2016; Alabama Cooperative Extension ANR-1359',
  },
  'depth-under': { readBy: 'everyone', source: 'UF/IFAS Extension Polk County, Mulch, 2016' },
  'large-size': {
    readBy: 'everyone',
    source: OWN,
    figure: [PUBLISHED['large-size'].us, PUBLISHED['large-size'].metric],
  },
  'postcode-not-served': { readBy: 'everyone', source: OWN },
  'edge-unknown': { readBy: 'everyone', source: OWN },
  fire: {
    readBy: 'everyone',
    source: 'Massachusetts fire code, 527 CMR 17',
    figure: ['18 in', '46 cm'],
  },
  clearance: {
    readBy: 'everyone',
    source: 'University of Florida, EDIS ENY-832',
    figure: ['6 in', '15 cm'],
  },
  trunks: {
    readBy: 'everyone',
    source: 'Extension offices: 2 to 18 in, depending on which one you ask',
    figure: ['2 in', '5 cm'],
  },
  cocoa: { readBy: 'everyone', source: 'AVMA, 2003; ASPCA' },
  digging: {
    readBy: 'everyone',
    source: 'Ohio Revised Code 3781.25; Arkansas Code 14-271-109; Indiana Code 8-1-26-6',
  },
  'weed-killer': { readBy: 'staff', source: 'Clemson Department of Pesticide Regulation; Wisconsin DATCP' },
  lifting: {
    readBy: 'staff',
    source: 'NIOSH 94-110; OSHA',
    figure: [PUBLISHED.lifting.us, PUBLISHED.lifting.metric],
  },
  payload: { readBy: 'staff', source: 'Wet weights as you set them under each material' },
  pile: { readBy: 'staff', source: 'Massachusetts State Fire Marshal' },
}

/** The warnings that a new table has, and that any table may have. */
export function starterCautions(units: RateTable['units']): Caution[] {
  return Object.entries(START).map(([code, { figure, ...rest }]) => ({
    code,
    shown: true,
    ...rest,
    ...(figure ? { figure: figure[units === 'us' ? 0 : 1] } : {}),
    words: { en: null, es: null },
  }))
}
