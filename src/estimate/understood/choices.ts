import { Decimal } from '../../lib/decimal.ts'
import type { Bed, BedTold, Job, Layer, Told } from '../job/bed.ts'
import { usualLayers } from '../reading/read-layers.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { type Recalled, recallJob } from './recall.ts'
import { recordJob } from './record.ts'

/** More of either nobody is offered: with every combination priced, these come to 64 prices. */
export const MOST_PICKS = 2
export const MOST_ADD_ONS = 4

/**
 * Pick one: a bed (counted from 0; null for all) as it is, or with another finish, another depth in in|cm, or both; what
 * stays is null. `finish` is a slug of the rate table. `was` is what it stands against, null where the beds differ.
 */
export interface Pick {
  bed: number | null
  finish: string | null
  depth: string | null
  was: { finish: string | null; depth: string | null }
}

/** Add if you like: an extra by its slug, for one bed, counted from 0, or for the whole job. */
export interface AddOn {
  bed: number | null
  extra: string
}

/** What somebody may choose beside a price. */
export interface Choices {
  picks: Pick[]
  addOns: AddOn[]
}

/** What of it is taken: of a pick the other way, of an add-on that it is wanted. */
export interface Taken {
  picks: boolean[]
  addOns: boolean[]
}

/** What is taken, in writing: a digit for each pick, then one for each add-on, '10-0100'. */
export function takenInDigits({ picks, addOns }: Taken): string {
  return [picks, addOns].map(some => some.map(is => (is ? '1' : '0')).join('')).join('-')
}

/** What such digits say of these choices; undefined where they are of others. */
export function takenOf(digits: string, { picks, addOns }: Choices): Taken | undefined {
  const [first = '', second = '', ...more] = digits.split('-')
  const isOurs = first.length === picks.length && second.length === addOns.length && more.length === 0
  if (!isOurs || !/^[01]*-[01]*$/.test(digits)) return undefined
  const read = (some: string) => [...some].map(digit => digit === '1')
  return { picks: read(first), addOns: read(second) }
}

/** Nothing of it: the price as it stands. */
export function noneTaken({ picks, addOns }: Choices): Taken {
  return { picks: picks.map(() => false), addOns: addOns.map(() => false) }
}

/** Every combination, that of nothing first. */
export function combinations(choices: Choices): Taken[] {
  const count = choices.picks.length + choices.addOns.length
  return Array.from({ length: 2 ** count }, (_, nth) => {
    const digits = Array.from({ length: count }, (_, place) => ((nth >> place) & 1) === 1)
    return { picks: digits.slice(0, choices.picks.length), addOns: digits.slice(choices.picks.length) }
  })
}

/** A job with what is taken: as it is shown and as it is priced; a fault where that can't be together. */
export function withTaken(
  { told, job }: { told: Told; job: Job },
  choices: Choices,
  taken: Taken,
  table: RateTable,
): { told: Told; recalled: Recalled } {
  const picks = choices.picks.filter((_pick, index) => taken.picks[index])
  const addOns = choices.addOns.filter((_addOn, index) => taken.addOns[index])
  const wanted = (bed: number | null) => addOns.flatMap(one => (one.bed === bed ? [one.extra] : []))
  const extras = (had: Extra[], slugs: string[]) => [
    ...had,
    ...table.extras.filter(({ slug }) => slugs.includes(slug)),
  ]
  const beds = told.beds.map((typed, index) =>
    picks
      .filter(({ bed }) => bed === null || bed === index)
      .reduce((so, pick) => withPick(so, pick, table), { typed, bed: job.beds[index]! }),
  )
  const made: Job = {
    ...job,
    beds: beds.map(({ bed }, index) => ({ ...bed, extras: extras(bed.extras, wanted(index)) })),
    extras: extras(job.extras, wanted(null)),
  }
  return {
    told: {
      ...told,
      beds: beds.map(({ typed }, index) =>
        wanted(index).length > 0 ? { ...typed, extras: [...(typed.extras ?? []), ...wanted(index)] } : typed,
      ),
      extras: [...told.extras, ...wanted(null)],
    },
    // By the table once more, which has the last word on what can be together.
    recalled: recallJob(recordJob(made, table.units), table),
  }
}

interface TwoBeds {
  typed: BedTold
  bed: Bed
}

// What usually lies beneath follows the finish; what somebody said of it stays.
function withPick({ typed, bed }: TwoBeds, { finish: slug, depth }: Pick, table: RateTable): TwoBeds {
  const finish = table.finishes.find(one => one.slug === slug) ?? bed.finish
  const isUsual = sameLayers(bed.layers, usualLayers(bed.finish, table))
  const { layers, ...rest } = typed
  return {
    typed: {
      ...rest,
      ...(isUsual || layers === undefined ? {} : { layers }),
      finish: finish.slug,
      depth: depth ?? typed.depth,
    },
    bed: {
      ...bed,
      finish,
      usual: depth === null && bed.usual,
      depth: depth !== null ? new Decimal(depth) : bed.usual ? new Decimal(finish.depth.usual) : bed.depth,
      layers: isUsual ? usualLayers(finish, table) : bed.layers,
    },
  }
}

function sameLayers(some: Layer[], others: Layer[]): boolean {
  const said = (layers: Layer[]) =>
    layers.map(layer => ('finish' in layer ? `${layer.finish.slug} ${layer.depth}` : layer.extra.slug)).join()
  return said(some) === said(others)
}
