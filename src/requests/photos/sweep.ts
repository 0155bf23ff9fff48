import type { Kysely } from 'kysely'
import { findBusiness } from '../../business/queries.ts'
import type { Database } from '../../db/schema.ts'
import { deleteHeldBefore, deleteOfEnded } from './queries.ts'

/** Deletes photos whose request was never sent, and those of requests that ended as many months ago as the owner chose. Gives how many. */
export async function sweepPhotos(db: Kysely<Database>, now: Temporal.Instant): Promise<number> {
  const held = await deleteHeldBefore(db, now)
  const business = await findBusiness(db)
  if (!business) return held
  const zoned = now.toZonedDateTimeISO(business.time_zone)
  return held + (await deleteOfEnded(db, zoned.subtract({ months: business.photos_months }).toInstant()))
}
