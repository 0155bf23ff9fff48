import type { PackOf } from '../db/schema/goods.ts'
import type { Job } from '../estimate/job/bed.ts'
import { extraQuantity, extrasOf, isFor } from '../estimate/job/extras.ts'
import { jobQuantities } from '../estimate/job/quantities.ts'
import type { Terms } from '../estimate/job/terms.ts'
import { neededIn } from '../estimate/packs/offers.ts'
import { volumesToOrder } from '../estimate/packs/shopping.ts'
import { type Ground, groundsOf } from '../estimate/packs/strips.ts'
import { tableForJob } from '../estimate/price/job-table.ts'
import type { ExtraPack, Pack } from '../estimate/table/pack.ts'
import type { Extra, Finish, RateTable } from '../estimate/table/rate-table.ts'
import { Decimal, one, zero } from '../lib/decimal.ts'

/**
 * What a job takes of one thing that is bought: of a material in yd³|m³ with the allowance; of an extra in its own unit, and the
 * grounds that rolls are laid over; each is that in what its cost is per, with what is wasted, where no pack of it is listed.
 * left is the share of it that nobody has got yet, 1 for all of it.
 */
export type Wanted = {
  jobId: number
  slug: string
  need: Decimal
  left: Decimal
} & ({ of: 'finish'; thing: Finish } | { of: 'extra'; thing: Extra; grounds: Ground[]; each: Decimal })

/** Below this share of a need nothing is left to get: what is kept of who got how much is rounded. */
const HARDLY = '0.0005'

/** Everything that a job takes, by the rate table it was priced with and with its own crew and terms. */
export function wantedOf(jobId: number, job: Job, rates: RateTable, terms: Terms): Wanted[] {
  const table = tableForJob(rates, terms)
  const quantities = jobQuantities(job, table)
  const finishes = volumesToOrder(quantities, table).map(({ finish, need }) => ({
    ...{ jobId, need, left: one },
    ...({ of: 'finish', slug: finish.slug, thing: finish } as const),
  }))
  const extras = extrasOf(job, table).flatMap((extra): Wanted[] => {
    if (!takesMaterial(extra)) return []
    const { units: need, unitsPer } = extraQuantity(extra, job, quantities, table)
    const each = need.div(unitsPer).times(one.plus(extra.waste))
    const beds = extra.per === 'area' ? job.beds.filter(bed => isFor(extra, job, bed)) : []
    const grounds = beds.flatMap(bed => groundsOf(bed, table))
    return [{ jobId, need, left: one, of: 'extra', slug: extra.slug, thing: extra, grounds, each }]
  })
  return [...finishes.filter(({ need }) => need.gt(0)), ...extras.filter(({ need }) => need.gt(0))]
}

/** Whether something is bought for an extra: packs of it, or what a cost is known of. */
function takesMaterial({ packs, materialCost }: Extra): boolean {
  return packs.length > 0 || new Decimal(materialCost ?? 0).gt(0)
}

/** The same with the material or the extra as another table has it: as it is sold there. */
export function asSoldIn(wanted: Wanted, table: RateTable): Wanted {
  if (wanted.of === 'finish') {
    const thing = table.finishes.find(({ slug }) => slug === wanted.slug)
    return thing ? { ...wanted, thing } : wanted
  }
  const thing = table.extras.find(({ slug }) => slug === wanted.slug)
  const isSoldAlike =
    thing && (thing.packs.length > 0 || (takesMaterial(thing) && wanted.thing.packs.length === 0))
  return isSoldAlike ? { ...wanted, thing } : wanted
}

/** All that it takes in a pack's contents (yd³|m³ of a material, ft²|m² of rolls, ft|m of pieces), had or not; without one as it is costed. */
export function amountIn(wanted: Wanted, pack: Pack | ExtraPack | undefined): Decimal {
  if (wanted.of === 'finish') return wanted.need
  const extraPack = (pack ?? wanted.thing.packs[0]) as ExtraPack | undefined
  return extraPack ? neededIn(extraPack, wanted.need, wanted.thing, wanted.grounds) : wanted.each
}

/** The same with some more of it got. */
export function withGot(wanted: Wanted, share: Decimal): Wanted {
  const left = wanted.left.minus(share)
  return { ...wanted, left: left.lte(HARDLY) ? zero : left }
}

export function isOf<Thing extends { of: PackOf; slug: string }>(
  thing: Thing,
  of: PackOf,
  slug: string,
): boolean {
  return thing.of === of && thing.slug === slug
}
