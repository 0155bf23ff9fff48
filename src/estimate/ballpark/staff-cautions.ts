import type { Job } from '../job/bed.ts'
import { jobQuantities } from '../job/quantities.ts'
import { packWeight } from '../packs/pack-weight.ts'
import type { Shopping } from '../packs/shopping.ts'
import type { RateTable } from '../table/rate-table.ts'
import { figureOf } from './caution-figures.ts'
import { type CautionGiven, type Noted, notedOf, shownOf, showWeight } from './cautions.ts'

/** A warning to the staff; about is the name of what it is of, a finish or a pack, where that isn't the whole job. */
export interface StaffCaution extends CautionGiven {
  about?: { en: string; es: string }
}

type StaffNoted = Noted & Pick<StaffCaution, 'about'>

// Told below, of what is bought.
const BY_PURCHASE = ['payload', 'pile']

/**
 * Every warning that a job gives rise to, what is bought for it first: how much each finish weighs wet, packs that are
 * heavier than one person should lift, and loose piles.
 */
export function staffCautions(job: Job, shopping: Shopping, table: RateTable): StaffCaution[] {
  const noted = notedOf(job, jobQuantities(job, table), table)
  return shownOf<StaffNoted>(
    [
      ...shopping.finishes.flatMap(one => [
        ...payloadOf(one, table),
        ...liftingOf(one, table),
        ...pileOf(one),
      ]),
      ...noted.filter(({ code }) => !BY_PURCHASE.includes(code)),
    ],
    table,
  )
}

type Bought = Shopping['finishes'][number]

function payloadOf({ finish, need, buying }: Bought, table: RateTable): StaffNoted[] {
  if (finish.densityWet === null) return []
  const volume = buying?.taken.contents ?? need
  const weight = showWeight(volume.times(finish.densityWet), table)
  return [{ code: 'payload', params: { weight }, about: finish.name }]
}

function liftingOf({ finish, buying }: Bought, table: RateTable): StaffNoted[] {
  const { limit, figure } = figureOf('lifting', table)
  return packsOf(buying).flatMap(pack => {
    const weight = packWeight(pack, finish, table)
    if (!weight || weight.lte(limit)) return []
    const about = { en: `${finish.name.en}, ${pack.name.en}`, es: `${finish.name.es}, ${pack.name.es}` }
    return [{ code: 'lifting', params: { figure, weight: showWeight(weight, table) }, about }]
  })
}

function pileOf({ finish, buying }: Bought): StaffNoted[] {
  const isLoose = packsOf(buying).some(({ kind }) => kind === 'bulk' || kind === 'weighed')
  return isLoose && finish.cautions.includes('pile') ? [{ code: 'pile', params: {}, about: finish.name }] : []
}

function packsOf(buying: Bought['buying']) {
  return buying?.taken.parts.flatMap(({ way }) => (way ? [way.pack] : [])) ?? []
}
