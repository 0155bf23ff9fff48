import type { Kysely } from 'kysely'
import { findBusiness } from '../../business/queries.ts'
import type { Database } from '../../db/schema.ts'
import { findToCome } from './queries.ts'
import { dayWithYear, standingOf } from './words.ts'

/** A version that waits for its day, in words. */
export interface Waiting {
  version: number
  from: string
}

/** The versions that will come into force, the next first; one that a newer one comes before never does. */
export async function findWaiting(db: Kysely<Database>, now: Temporal.Instant): Promise<Waiting[]> {
  const business = await findBusiness(db)
  if (!business) return []
  const rows = await findToCome(db, now)
  return rows
    .filter(row => standingOf(row, now, business.time_zone).waits)
    .map(({ version, begins }) => ({ version, from: dayWithYear(begins, business.time_zone) }))
}
