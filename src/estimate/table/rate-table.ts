import type { Name } from './names.ts'
import type { ExtraPack, Pack } from './pack.ts'
import type { Tax } from './tax.ts'

export type Measuring = 'tape' | 'paces' | 'eye'
export type Planted = 'open' | 'half' | 'full'
export type LyingName = 'bare' | 'thin' | 'fair' | 'thick' | 'unsure'
export type Hatch = 'shreds' | 'chips' | 'straw' | 'dots' | 'pebbles'

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

/** A lower and an upper figure: every scenario of a ballpark stands somewhere between, a firm price in the middle. */
export interface Span {
  lower: string
  upper: string
}

/** One way to dress a bed. Depths in in|cm; rates and costs per yd³|m³; densities in lb per yd³ | kg per m³. */
export interface Finish {
  slug: string
  name: Name
  depth: { least: string; usual: string; greatest: string }
  hatch: Hatch
  swatch: string
  /** The name of its photo, the SHA-256 of the stored picture; null: the swatch is drawn. */
  photo: string | null
  /** At installed rates, one for each size of job; or at what material and laying cost, and a margin on them. */
  pricedBy: 'rate' | 'cost'
  rates: Span[]
  /** Per yd³|m³ to order, where no ways to buy it are listed; null while it isn't known. */
  materialCost: string | null
  packs: Pack[]
  /** The one way to buy it that is taken, 'bag-2:collected'; null takes the cheapest. */
  pinned: string | null
  densityDry: string | null
  densityWet: string | null
  /** Its own figures instead of the table's; null where it has none. */
  thinnestTopUp: string | null
  allowance: string | null
  /** The part of its price that is shown as material, where tax makes the owner show laying apart; null: not apart. */
  materialShare: string | null
  /** Whether homeowners are shown it; the others are for the staff alone. */
  offered: boolean
  /** For the time being; homeowners can't pick it then. */
  soldOut: boolean
  /** Slugs of the finishes that come close to it, the closest first. */
  substitutes: string[]
  cautions: CautionCode[]
}

/** What an extra is counted by: 'lying' is the old material to take out, in yd³|m³ as it lies loose on the truck. */
export const extraUnits = ['job', 'bed', 'area', 'edge', 'volume', 'lying'] as const
export type ExtraUnit = (typeof extraUnits)[number]

/** Work besides dressing; its rates and crew hours are per job, bed, ft²|m², ft|m of edge, or yd³|m³. */
export interface Extra extends Span {
  slug: string
  name: Name
  per: ExtraUnit
  /** Of extras of one group a bed gets one at most, as light, heavy or jungle weeds; null: of none. */
  group: string | null
  /** Whether homeowners may ask for it; the others are for whoever measures. */
  offered: boolean
  crewHours: Span
  packs: ExtraPack[]
  pinned: string | null
  /** How much looser old material lies on the truck than in the bed: 1.3 is three tenths more. */
  fluffing: string
  /** Per yd³|m³ brought to the dump. */
  dumpFee: string
  cautions: CautionCode[]
}

/** Crew hours of laying, for one person, per yd³|m³ in place, and what makes it slower. */
export interface Labour {
  spread: Span
  /** Beyond `free` ft|m from the heap to the bed, each `each` ft|m more adds the share `adds`. */
  carry: { free: string; each: string; adds: string }
  /** The share that each stair on the way adds. */
  stair: string
  /** What planting multiplies the hours by. */
  planted: Record<Planted, string>
  /** Driving to the yard, loading and coming back, for each trip. */
  trip: Span
  /** Once for every job. */
  setUp: Span
}

/** What a trip carries: the truck's bed, and a trailer where there is one. volume in yd³|m³ level, payload in lb|kg. */
export interface Carrier {
  name: Name
  volume: string
  payload: string | null
}

/** What the work costs the owner. crewHour is the wage of one; null while it isn't known, and so no cost is. */
export interface Costs {
  crewHour: string | null
  /** What the employer pays on top of the wage, as a share of it. */
  burden: string
  overheadPerCrewHour: string
  truckPerJob: string
  truckPerTrip: string
}

/** What is put on cost where a finish is priced by it: a share of the price (margin) or of the cost (markup). */
export interface CostPlus {
  by: 'margin' | 'markup'
  share: string
}

/** What the owner doesn't want to fall under: a share of the price, and money per crew hour; null: no floor. */
export interface Floors {
  margin: string | null
  payPerCrewHour: string | null
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
  labour: Labour
  carriers: Carrier[]
  costs: Costs
  costPlus: CostPlus
  floors: Floors
  tax: Tax | null
  /** A warning left out of this list is never shown. */
  cautions: { code: CautionCode; figure?: string; source: string }[]
}
