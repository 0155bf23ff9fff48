import { z } from 'zod'
import { type ExtraPack, type Pack, waysOf } from './pack.ts'
import { extraPacksSchema, packsSchema } from './pack-schema.ts'
import { isPhotoName } from './photo-name.ts'
import { cautionCodes, extraUnits, type Measuring, type RateTable } from './rate-table.ts'
import { canBePicked } from './substitutes.ts'
import { aboveZero, between, figure, name, slug, span, upward } from './table-figures.ts'
import { taxSchema } from './tax-schema.ts'

const share = between(0, 0.9)

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
  photo: z.string().refine(isPhotoName, 'the name of a photo, 64 hexadecimal digits').nullable(),
  pricedBy: z.enum(['rate', 'cost']),
  rates: z.array(span).min(1),
  materialCost: figure.nullable(),
  packs: packsSchema,
  pinned: z.string().nullable(),
  densityDry: aboveZero.nullable(),
  densityWet: aboveZero.nullable(),
  thinnestTopUp: aboveZero.nullable(),
  allowance: between(0, 1).nullable(),
  materialShare: between(0, 1).nullable(),
  offered: z.boolean(),
  soldOut: z.boolean(),
  substitutes: z.array(slug),
  cautions: z.array(z.enum(cautionCodes)),
})

const extra = z
  .object({
    slug,
    name,
    per: z.enum(extraUnits),
    lower: figure,
    upper: figure,
    group: slug.nullable(),
    offered: z.boolean(),
    crewHours: span,
    packs: extraPacksSchema,
    pinned: z.string().nullable(),
    fluffing: between(1, 3),
    dumpFee: figure,
    cautions: z.array(z.enum(cautionCodes)),
  })
  .refine(upward, { path: ['upper'], message: 'not less than the lower rate' })

// Above 0.25 a shared error could outweigh the bed itself (see errors.ts).
const way = z.object({ sigma: between(0, 0.25), rho: between(0, 1) })
const layer = z.object({ m: figure, s: figure })
const factor = between(1, 10)

const shape = z.object({
  units: z.enum(['us', 'metric']),
  currency: z.string().regex(/^[A-Z]{3}$/, 'three capital letters (ISO 4217)'),
  finishes: z.array(finish),
  extras: z.array(extra),
  minimumCharge: figure,
  tiers: z.array(aboveZero),
  travel: z.array(z.object({ postcodes: z.array(z.string().trim().min(1)).min(1), charge: figure })),
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
  labour: z.object({
    spread: span,
    carry: z.object({ free: figure, each: aboveZero, adds: between(0, 10) }),
    stair: between(0, 1),
    planted: z.object({ open: factor, half: factor, full: factor }),
    trip: span,
    setUp: span,
  }),
  carriers: z.array(z.object({ name, volume: aboveZero, payload: aboveZero.nullable() })),
  costs: z.object({
    crewHour: figure.nullable(),
    burden: between(0, 5),
    overheadPerCrewHour: figure,
    truckPerJob: figure,
    truckPerTrip: figure,
  }),
  // A margin of the whole price would make the price endless.
  costPlus: z
    .object({ by: z.enum(['margin', 'markup']), share: between(0, 10) })
    .refine(({ by, share }) => by === 'markup' || Number(share) <= 0.95, {
      path: ['share'],
      message: 'a margin of 0.95 at most',
    }),
  floors: z.object({ margin: between(0, 1).nullable(), payPerCrewHour: figure.nullable() }),
  tax: taxSchema.nullable(),
  cautions: z.array(
    z.object({ code: z.enum(cautionCodes), figure: z.string().optional(), source: z.string() }),
  ),
})

/** Checks a rate table read from a form or a file; lists every fault with its path. */
export const rateTableSchema: z.ZodType<RateTable> = shape.superRefine((table, context) => {
  const fault = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message })
  refuseTwice(table.finishes, ['finishes'], fault)
  refuseTwice(table.extras, ['extras'], fault)
  for (const list of ['finishes', 'extras'] as const)
    table[list].forEach(({ packs, pinned }, index) => {
      refuseTwice(packs, [list, index, 'packs'], fault)
      if (pinned !== null && !waysOf<Pack | ExtraPack>(packs).some(({ key }) => key === pinned))
        fault([list, index, 'pinned'], 'not one of its ways to buy')
    })
  table.tiers.forEach((from, index) => {
    const before = table.tiers[index - 1]
    if (before !== undefined && Number(from) <= Number(before))
      fault(['tiers', index], 'larger than the one before')
  })
  table.finishes.forEach((one, index) => {
    if (one.rates.length !== table.tiers.length + 1)
      fault(['finishes', index, 'rates'], 'one pair of rates for each size of job')
    if (one.pricedBy === 'cost' && !isCostKnown(one, table))
      fault(['finishes', index, 'pricedBy'], 'needs what it costs to buy, and what a crew hour costs')
  })
  refuseSubstitutes(table.finishes, fault)
  // Whichever of them a form is about, the fault stands beside what it can change.
  if (!table.finishes.some(canBePicked))
    table.finishes.forEach(({ offered }, index) => {
      fault(['finishes', index, offered ? 'soldOut' : 'offered'], NONE_TO_PICK)
    })
  refuseWorse(table, 'tape', 'paces', fault)
  refuseWorse(table, 'paces', 'eye', fault)
})

const NONE_TO_PICK = 'at least one finish must be shown to homeowners and not be sold out'

type AddFault = (path: (string | number)[], message: string) => void

function isCostKnown(one: z.infer<typeof finish>, table: z.infer<typeof shape>): boolean {
  return table.costs.crewHour !== null && (one.packs.length > 0 || one.materialCost !== null)
}

function refuseTwice(things: { slug: string }[], path: (string | number)[], fault: AddFault): void {
  things.forEach((thing, index) => {
    if (things.findIndex(other => other.slug === thing.slug) !== index)
      fault([...path, index, 'slug'], 'already used above')
  })
}

function refuseSubstitutes(finishes: z.infer<typeof finish>[], fault: AddFault): void {
  finishes.forEach(({ slug, substitutes }, index) => {
    substitutes.forEach((other, place) => {
      const at = ['finishes', index, 'substitutes', place]
      if (other === slug) fault(at, `“${other}” can’t stand in for itself`)
      else if (!finishes.some(one => one.slug === other)) fault(at, `there is no finish “${other}”`)
      else if (substitutes.indexOf(other) !== place) fault(at, `“${other}” is named above already`)
    })
  })
}

// Otherwise measuring better could widen the range.
function refuseWorse(
  table: Pick<RateTable, 'measuring'>,
  better: Measuring,
  worse: Measuring,
  fault: AddFault,
): void {
  const [a, b] = [table.measuring[better], table.measuring[worse]]
  const shared = (one: typeof a) => Number(one.sigma) * Math.sqrt(Number(one.rho))
  const own = (one: typeof a) => Number(one.sigma) * Math.sqrt(1 - Number(one.rho))
  if (shared(a) > shared(b) || own(a) > own(b))
    fault(['measuring', better], `must not be less certain than ${worse}, shared part and own part alike`)
}
