import { z } from 'zod'
import { choice, declared, plainSlug, yes } from './row.ts'

/** The warnings that come with the program: `src/language/cautions.ts` has a sentence for each and no other. */
export const cautionCodes = [
  'depth-over',
  'depth-under',
  'large-size',
  'postcode-not-served',
  'edge-unknown',
  'fire',
  'clearance',
  'trunks',
  'cocoa',
  'digging',
  'weed-killer',
  'lifting',
  'payload',
  'pile',
] as const
export type CautionCode = (typeof cautionCodes)[number]

/** The figures of those that come about by one, as published or as our own rule: `starter-cautions.ts` has the sources. */
export const PUBLISHED = {
  lifting: { us: '51 lb', metric: '23 kg' },
  'large-size': { us: '300 ft', metric: '90 m' },
}

/** Those that go with a finish or an extra, each with what pages call it; the others come about by themselves. */
export const GOES_WITH = {
  fire: 'Fire near the house',
  clearance: 'Siding and termites',
  trunks: 'Trunks',
  cocoa: 'Cocoa hulls and dogs',
  digging: 'Digging and utility lines',
  'weed-killer': 'Weed killer and licenses',
  payload: 'What a truck can carry',
  pile: 'Loose piles heating up',
} satisfies Partial<Record<CautionCode, string>>

const NAMES: Record<CautionCode, string> = {
  'depth-over': 'Deeper than usual',
  'depth-under': 'Thinner than usual',
  'large-size': 'A very large size',
  'postcode-not-served': 'Outside your area',
  'edge-unknown': 'An edge that isn’t known',
  lifting: 'Lifting bags',
  ...GOES_WITH,
}

/** What the staff call a warning: the owner's own by its code. */
export function cautionName(code: string): string {
  return isBuiltIn(code) ? NAMES[code] : code.replaceAll('-', ' ')
}

export function isBuiltIn(code: string): code is CautionCode {
  return (cautionCodes as readonly string[]).includes(code)
}

/** The cautions that go with a finish or an extra: of those above, and of the owner's own. */
export function cautionTicks() {
  return declared(z.array(plainSlug()), {
    kind: 'codes',
    name: 'cautions',
    label: 'Cautions that go with it',
    heading: 'Cautions',
    before: [],
    options: GOES_WITH,
  })
}

const LONGEST_WORDS = 300

function words(name: string, label: string, meaning: string) {
  return declared(z.string().trim().min(1).max(LONGEST_WORDS).nullable(), {
    kind: 'text',
    name,
    label,
    meaning,
    before: null,
  })
}

/** A warning of the table; one left out is never shown. */
export const caution = z.object({
  code: declared(plainSlug(), {
    kind: 'slug',
    name: 'code',
    label: 'Warning',
    meaning: 'Lowercase letters, digits, and hyphens. Another code is a warning of your own.',
  }),
  shown: yes('shown', 'Show it', { before: true, start: true }),
  readBy: choice(
    'read by',
    'Who reads it',
    { everyone: 'homeowners, and you', staff: 'only you' },
    { before: 'everyone' },
  ),
  figure: declared(z.string().optional(), {
    kind: 'note',
    name: 'figure',
    label: 'Its figure',
    meaning: 'With its unit: 18 in. Empty: it has none.',
  }),
  source: declared(z.string(), { kind: 'note', name: 'source', label: 'Whose advice or rule it is' }),
  words: z.object({
    en: words(
      'words',
      'In your own words, in English',
      'Empty: the words that come with it. {figure} stands for its figure.',
    ),
    es: words('words in Spanish', 'In your own words, in Spanish', 'Empty: the words that come with it.'),
  }),
})
