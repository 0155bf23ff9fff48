import type { Transaction } from 'kysely'
import { MOST_PHOTOS } from '../../business/form.ts'
import type { Database } from '../../db/schema.ts'
import { claimHeld, findPlaces } from './queries.ts'

/** A photo that a form carries: the token that it is held by, and what it shows. */
export interface CarriedPhoto {
  token: string
  words: string
}

/**
 * Makes photos that are held those of a request, which has to be locked or new, as many as it may have; gives how many
 * that were. One that isn't held anymore is passed over.
 */
export async function keepPhotos(
  trx: Transaction<Database>,
  id: number,
  photos: CarriedPhoto[],
  most: number,
  at: Temporal.Instant,
): Promise<number> {
  if (photos.length === 0) return 0
  const taken = new Set(await findPlaces(trx, id))
  const free = Array.from({ length: MOST_PHOTOS }, (_, index) => index + 1).filter(place => !taken.has(place))
  let left = Math.max(0, most - taken.size)
  let kept = 0
  for (const photo of photos) {
    const place = free[0]
    if (left === 0 || place === undefined) break
    if (!(await claimHeld(trx, { ...photo, id, place }, at))) continue
    free.shift()
    left -= 1
    kept += 1
  }
  return kept
}
