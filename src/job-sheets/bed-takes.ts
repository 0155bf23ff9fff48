import type { Bed } from '../estimate/job/bed.ts'
import { allowanceOf, bedQuantities } from '../estimate/job/quantities.ts'
import { contentsOf, type Pack } from '../estimate/table/pack.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { type Decimal, figureOf, one, sumOf } from '../lib/decimal.ts'
import type { AgreedJob } from './agreed-job.ts'

/** What one bed takes of a material: so many bags or bales of a pack, or loads of a wheelbarrow where it comes loose. */
export interface Takes {
  finish: Finish
  /** In in|cm. */
  depth: Decimal
  pack: Pack | null
  count: Decimal
}

/**
 * What one bed of a kind takes, from the bottom up, so in the order in which it is laid: with the allowance for settling
 * and loss, and not rounded, so that all beds come to what is bought. `barrow` is in ft³|m³.
 */
export function bedTakes(
  bed: Bed,
  { table, shopping }: Pick<AgreedJob, 'table' | 'shopping'>,
  barrow: string,
): Takes[] {
  const { inPlace, layers } = bedQuantities(bed, table)
  return [...[...layers].reverse(), { finish: bed.finish, depth: bed.depth, inPlace }].map(
    ({ finish, depth, inPlace: volume }) => {
      const wanted = volume.times(one.plus(figureOf(allowanceOf(finish, table))))
      const pack = packOf(finish, shopping)
      return { finish, depth, pack, count: countOf(wanted, pack, table, barrow) }
    },
  )
}

/** The pack that the job buys of a finish, where it buys no loose one. */
function packOf(finish: Finish, shopping: AgreedJob['shopping']): Pack | null {
  const parts = shopping.finishes.find(one => one.finish.slug === finish.slug)?.buying?.taken.parts ?? []
  const packs = parts.map(({ way }) => way?.pack)
  const [first] = packs
  if (!first || packs.some(pack => pack?.kind !== 'bag' && pack?.kind !== 'bale')) return null
  return first as Pack
}

function countOf(volume: Decimal, pack: Pack | null, table: RateTable, barrow: string): Decimal {
  const system = unitSystem(table.units)
  if (!pack) return volume.div(barrow)
  return volume.div(system.volumesPerBulk).div(contentsOf(pack, system))
}

/** All that a job takes of each material, in packs or loads. */
export function jobTakes(
  { job, table, shopping }: Pick<AgreedJob, 'job' | 'table' | 'shopping'>,
  barrow: string,
): Takes[] {
  const all = new Map<string, Takes[]>()
  for (const bed of job.beds)
    for (const takes of bedTakes(bed, { table, shopping }, barrow)) {
      const counted = { ...takes, count: takes.count.times(bed.count) }
      all.set(takes.finish.slug, [...(all.get(takes.finish.slug) ?? []), counted])
    }
  return [...all.values()].map(many => ({ ...many[0]!, count: sumOf(many.map(({ count }) => count)) }))
}
