import type { Kysely } from 'kysely'
import { findBusiness } from '../account/queries.ts'
import type { Database } from '../db/schema.ts'
import { dayInWords, dayOf } from '../lib/dates.ts'

/** A version that waits for its day, in words. */
export interface Waiting {
  version: number
  from: string
}

/** The versions that will come into force, the next first; one that a newer one comes before never does. */
export async function findWaiting(db: Kysely<Database>, now: Temporal.Instant): Promise<Waiting[]> {
  const business = await findBusiness(db)
  const rows = await db
    .selectFrom('rate_table')
    .select(['version', 'in_force_from'])
    .orderBy('version', 'desc')
    .limit(20)
    .execute()
  const waiting: Waiting[] = []
  let before = Number.POSITIVE_INFINITY
  for (const { version, in_force_from } of rows) {
    const from = in_force_from === null ? 0 : Temporal.Instant.from(in_force_from).epochMilliseconds
    if (!business || from <= now.epochMilliseconds) break
    if (from >= before) continue
    before = from
    const day = dayOf(Temporal.Instant.from(in_force_from!), business.time_zone)
    waiting.unshift({ version, from: dayInWords(day, 'en', true) })
  }
  return waiting
}
