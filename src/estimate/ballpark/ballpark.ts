import { cents } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extrasOf } from '../job/extras.ts'
import { hasLayer } from '../job/layers.ts'
import { methodOf, newestMethod } from '../job/methods/all-methods.ts'
import { inPlaceInAll, jobQuantities } from '../job/quantities.ts'
import { termsTold } from '../job/terms.ts'
import { priceLines } from '../price/price-lines.ts'
import { shownTax, type TaxShown } from '../price/shown-tax.ts'
import { type Narrower, whatWouldNarrow } from '../scenarios/narrower.ts'
import { shownRange, spreadsOf } from '../scenarios/range.ts'
import type { RateTable } from '../table/rate-table.ts'
import { asSold, soldIn } from '../table/sold.ts'
import { withPurchaseTax } from '../tax/on-purchases.ts'
import { type Q, quantity, unitSystem } from '../units/units.ts'
import { type CautionGiven, cautionsOf } from './cautions.ts'

export interface Range {
  low: string
  likely: string
  high: string
  currency: string
}

/** The provisional price range. area and inPlace are of the whole job; beds holds one bed of each entry. */
export interface Ballpark {
  /** Of the method that it was worked out by; goes up when the same beds and rates would give another range. */
  method: number
  area: Q
  inPlace: Q
  beds: { area: Q; edge: Q | null; inPlace: Q }[]
  /** What is laid of each finish, in what it is sold in; wanting where it was worked out before that was told. */
  materials?: { finish: string; amount: Q }[]
  /** The extras that lie beneath a bed, where there are any. */
  beneath?: string[]
  range: Range
  minimumDecides: boolean
  tax: TaxShown | null
  /** Null too where it wasn't looked for. */
  narrower: Narrower | null
  cautions: CautionGiven[]
}

/** Of more beds than these it is only looked for when asked: one more bed is two ranges more to work out. */
const MOST_NARROWED = 10

/** Whether what would narrow the range of so many beds is looked for when nobody says. */
export function narrowsUnasked(beds: number): boolean {
  return beds <= MOST_NARROWED
}

/**
 * The range within which the price will lie as often as the table promises: 1,024 scenarios of what was told and of
 * where the rates stand. Likely is exact: the sizes as told at the middle of every rate. What would narrow it is the
 * dearest part by far, and left out where `narrower` is false. `method` is the number of the one that a stored ballpark
 * was worked out by.
 */
export function workOutBallpark(
  job: Job,
  rates: RateTable,
  { narrower = true, method: number = newestMethod.number } = {},
): Ballpark {
  const method = methodOf(number)
  const terms = termsTold(job, rates)
  const table = withPurchaseTax(rates, terms)
  const system = unitSystem(table.units)
  const quantities = jobQuantities(job, table)
  const lines = priceLines(job, quantities, table, terms)
  const { tax, factor, likely } = shownTax(lines, job.postcode, table, terms)
  const spreadOf = spreadsOf(job, quantities, table, factor.toNumber(), method)
  const told = spreadOf()
  const beneath = extrasOf(job, table).filter(({ slug }) => job.beds.some(bed => hasLayer(bed, slug)))
  return {
    method: number,
    area: quantity(quantities.area, system.area),
    inPlace: quantity(quantities.inPlace, system.volume),
    beds: quantities.beds.map(bed => ({
      area: quantity(bed.area, system.area),
      edge: bed.edge && quantity(bed.edge, system.length),
      inPlace: quantity(inPlaceInAll(bed), system.volume),
    })),
    materials: quantities.finishes.map(({ finish, inPlace }) => ({
      finish: finish.slug,
      amount: quantity(asSold(inPlace, finish, table), soldIn(finish, table).unit),
    })),
    ...(beneath.length > 0 && { beneath: beneath.map(({ slug }) => slug) }),
    range: {
      ...shownRange(told, likely, table, factor, method),
      likely: cents(likely),
      currency: table.currency,
    },
    minimumDecides: lines.some(line => line.kind === 'minimum'),
    tax,
    narrower: narrower ? whatWouldNarrow(job, told, spreadOf, { likely, factor }, table, method) : null,
    cautions: cautionsOf(job, quantities, table),
  }
}
