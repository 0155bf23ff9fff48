import { z } from 'zod'

export type Measuring = 'tape' | 'paces' | 'eye'
export type Planted = 'open' | 'half' | 'full'
export type LyingName = 'bare' | 'thin' | 'fair' | 'thick' | 'unsure'
export type Hatch = 'shreds' | 'chips' | 'straw' | 'dots' | 'pebbles'

/** The warnings there are: each has its text in the message catalogue, under 'caution.<code>'. */
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

/** What a thing is called, in each language of the pages. */
export interface Name {
  en: string
  es: string
}

/** One way to dress a bed. Depths in in|cm; rates and costs per yd³|m³; densityWet in lb per yd³ | kg per m³. */
export interface Finish {
  slug: string
  name: Name
  depth: { least: string; usual: string; greatest: string }
  hatch: Hatch
  swatch: string
  rates: { lower: string; upper: string }[]
  soldBy: 'volume' | 'bale' | 'weight'
  materialCost: string | null
  densityWet: string | null
  cautions: string[]
}

/** Work besides dressing; its rates and crew hours are per job, bed, ft²|m², ft|m of edge, or yd³|m³. */
export interface Extra {
  slug: string
  name: Name
  per: 'job' | 'bed' | 'area' | 'edge' | 'volume'
  lower: string
  upper: string
  crewHours: string
  cautions: string[]
}

/** The contractor's prices and working rates, one version. Every figure is a decimal string. */
export interface RateTable {
  units: 'us' | 'metric'
  currency: string
  finishes: Finish[]
  extras: Extra[]
  minimumCharge: string
  tiers: string[]
  travel: { postcodes: string[]; charge: string }[]
  crewHoursPerVolume: string
  measuring: Record<Measuring, { sigma: string; rho: string }>
  pace: string
  lying: Record<LyingName, { m: string; s: string }>
  lyingTold: string
  lyingMeasured: string
  planted: Record<Planted, string>
  thinnestTopUp: string
  allowance: string
  promise: string
  step: string
  costs: { crewHour: string | null }
  /** A warning left out of this list is never shown. */
  cautions: { code: string; figure?: string; source: string }[]
}

const figure = z.string().regex(/^\d{1,9}(\.\d{1,9})?$/, 'a figure such as 12 or 12.50')
const aboveZero = figure.refine(text => Number(text) > 0, 'more than zero')
const between = (least: number, greatest: number) =>
  figure.refine(text => Number(text) >= least && Number(text) <= greatest, `from ${least} to ${greatest}`)
const slug = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'small letters, digits and hyphens')
const name = z.object({ en: z.string().trim().min(1).max(60), es: z.string().trim().min(1).max(60) })
const upward = (rate: { lower: string; upper: string }) => Number(rate.lower) <= Number(rate.upper)
const rate = z
  .object({ lower: figure, upper: figure })
  .refine(upward, { path: ['upper'], message: 'not less than the lower rate' })

const finish = z.object({
  slug,
  name,
  depth: z
    .object({ least: aboveZero, usual: aboveZero, greatest: aboveZero })
    .refine(
      depth => Number(depth.least) <= Number(depth.usual) && Number(depth.usual) <= Number(depth.greatest),
      'least, usual and greatest in that order',
    ),
  hatch: z.enum(['shreds', 'chips', 'straw', 'dots', 'pebbles']),
  swatch: z.string().regex(/^#[0-9a-fA-F]{6}$/, 'a colour such as #8a5a2b'),
  rates: z.array(rate).min(1),
  soldBy: z.enum(['volume', 'bale', 'weight']),
  materialCost: figure.nullable(),
  densityWet: aboveZero.nullable(),
  cautions: z.array(z.enum(cautionCodes)),
})

const extra = z
  .object({
    slug,
    name,
    per: z.enum(['job', 'bed', 'area', 'edge', 'volume']),
    lower: figure,
    upper: figure,
    crewHours: figure,
    cautions: z.array(z.enum(cautionCodes)),
  })
  .refine(upward, { path: ['upper'], message: 'not less than the lower rate' })

// Above 0.25 a shared error could outweigh the bed itself (see errors.ts).
const way = z.object({ sigma: between(0, 0.25), rho: between(0, 1) })
const layer = z.object({ m: figure, s: figure })
const share = between(0, 0.9)

const shape = z.object({
  units: z.enum(['us', 'metric']),
  currency: z.string().regex(/^[A-Z]{3}$/, 'three capital letters (ISO 4217)'),
  finishes: z.array(finish),
  extras: z.array(extra),
  minimumCharge: figure,
  tiers: z.array(aboveZero),
  travel: z.array(z.object({ postcodes: z.array(z.string().trim().min(1)).min(1), charge: figure })),
  crewHoursPerVolume: figure,
  measuring: z.object({ tape: way, paces: way, eye: way }),
  pace: aboveZero,
  lying: z.object({ bare: layer, thin: layer, fair: layer, thick: layer, unsure: layer }),
  lyingTold: figure,
  lyingMeasured: figure,
  planted: z.object({ open: share, half: share, full: share }),
  thinnestTopUp: aboveZero,
  allowance: between(0, 1),
  promise: between(0.5, 0.99),
  step: aboveZero,
  costs: z.object({ crewHour: figure.nullable() }),
  cautions: z.array(
    z.object({ code: z.enum(cautionCodes), figure: z.string().optional(), source: z.string() }),
  ),
})

/** Checks a rate table read from the database or a file; lists every fault with its path. */
export const rateTableSchema: z.ZodType<RateTable> = shape.superRefine((table, context) => {
  const fault = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message })
  refuseTwice(table.finishes, 'finishes', fault)
  refuseTwice(table.extras, 'extras', fault)
  table.tiers.forEach((from, index) => {
    const before = table.tiers[index - 1]
    if (before !== undefined && Number(from) <= Number(before))
      fault(['tiers', index], 'larger than the one before')
  })
  table.finishes.forEach((one, index) => {
    if (one.rates.length !== table.tiers.length + 1)
      fault(['finishes', index, 'rates'], 'one pair of rates for each size of job')
  })
  refuseWorse(table, 'tape', 'paces', fault)
  refuseWorse(table, 'paces', 'eye', fault)
})

type AddFault = (path: (string | number)[], message: string) => void

function refuseTwice(things: { slug: string }[], list: string, fault: AddFault): void {
  things.forEach((thing, index) => {
    if (things.findIndex(other => other.slug === thing.slug) !== index)
      fault([list, index, 'slug'], 'already used above')
  })
}

// Otherwise measuring better could widen the range.
function refuseWorse(table: RateTable, better: Measuring, worse: Measuring, fault: AddFault): void {
  const [a, b] = [table.measuring[better], table.measuring[worse]]
  const shared = (one: typeof a) => Number(one.sigma) * Math.sqrt(Number(one.rho))
  const own = (one: typeof a) => Number(one.sigma) * Math.sqrt(1 - Number(one.rho))
  if (shared(a) > shared(b) || own(a) > own(b))
    fault(['measuring', better], `must not be less certain than ${worse}, shared part and own part alike`)
}
