import type { Kysely, Selectable } from 'kysely'
import type { BusinessTable } from '../db/schema/business.ts'
import type { Database } from '../db/schema.ts'
import { Refusal } from '../http/errors.ts'

export type Business = Selectable<BusinessTable>

/** The business that this installation serves; undefined before set-up. */
export async function findBusiness(db: Kysely<Database>): Promise<Business | undefined> {
  return db.selectFrom('business').selectAll().executeTakeFirst()
}

/**
 * The business that this installation serves.
 * @throws {Refusal} 503 before set-up
 */
export async function requireBusiness(db: Kysely<Database>): Promise<Business> {
  const business = await findBusiness(db)
  if (!business) throw new Refusal(503, 'error.not-open')
  return business
}
