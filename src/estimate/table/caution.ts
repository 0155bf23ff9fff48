import { z } from 'zod'
import { declared } from './row.ts'

/** The warnings there are: `src/language/cautions.ts` is held against this, and has a sentence for each and no other. */
export const cautionCodes = [
  'depth-over',
  'depth-under',
  'large-size',
  'postcode-not-served',
  'edge-unknown',
  'fire',
  'clearance',
  'payload',
  'digging',
] as const
export type CautionCode = (typeof cautionCodes)[number]

const options = Object.fromEntries(cautionCodes.map(code => [code, code.replaceAll('-', ' ')]))

/** The cautions that go with a finish or an extra. */
export function cautionTicks() {
  return declared(z.array(z.enum(cautionCodes)), {
    kind: 'codes',
    name: 'cautions',
    label: 'Cautions that go with it',
    heading: 'Cautions',
    before: [],
    options,
  })
}

/** A warning of the table; one left out is never shown. */
export const caution = z.object({
  code: declared(z.enum(cautionCodes), { kind: 'choice', name: 'code', label: 'Warning', options }),
  figure: declared(z.string().optional(), {
    kind: 'note',
    name: 'figure',
    label: 'Its figure',
    meaning: 'With its unit: 18 in. Empty: it has none.',
  }),
  source: declared(z.string(), { kind: 'note', name: 'source', label: 'Whose advice or rule it is' }),
})
