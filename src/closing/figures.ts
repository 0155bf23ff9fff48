import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { findSharesDone } from './queries.ts'
import type { Went } from './went.ts'

export type Figures = Pick<Went, 'used' | 'left' | 'hours' | 'fees' | 'shares'>

/** Writes down what a job took, beside the version that says so. */
export async function insertFigures(
  trx: Transaction<Database>,
  closingId: number,
  quoteId: number | null,
  { used, left, hours, fees, shares }: Figures,
): Promise<void> {
  const of = { closing_id: closingId }
  const numbered = <Row>(rows: Row[]) => rows.map((row, index) => ({ ...row, ...of, nth: index + 1 }))
  if (used.length > 0)
    await trx
      .insertInto('job_used')
      .values(used.map(one => ({ ...one, ...of })))
      .execute()
  if (left.length > 0)
    await trx
      .insertInto('job_left_over')
      .values(left.map(one => ({ ...one, ...of })))
      .execute()
  if (hours.length > 0) await trx.insertInto('job_hours').values(numbered(hours)).execute()
  if (fees.length > 0) await trx.insertInto('job_dump_fee').values(numbered(fees)).execute()
  if (shares.length > 0 && quoteId !== null)
    await trx
      .insertInto('job_share_done')
      .values(shares.map(one => ({ ...one, ...of, quote_id: quoteId })))
      .execute()
}

/** Carries over to a newer version the hours, fees and leftovers of the part that was done before. */
export async function keepFigures(
  trx: Transaction<Database>,
  beforeId: number,
  closingId: number,
): Promise<void> {
  const { hours, fees, left } = await findFigures(trx, beforeId)
  await insertFigures(trx, closingId, null, { hours, fees, left, used: [], shares: [] })
}

/** What was written down with a version of how a job went. */
export async function findFigures(db: Kysely<Database>, closingId: number): Promise<Figures> {
  const used = await db
    .selectFrom('job_used')
    .select(['of', 'slug', 'pack', 'units', 'planned'])
    .where('closing_id', '=', closingId)
    .orderBy('of', 'desc')
    .orderBy('slug')
    .orderBy('pack')
    .execute()
  const left = await db
    .selectFrom('job_left_over')
    .select(['of', 'slug', 'pack', 'units', 'goes'])
    .where('closing_id', '=', closingId)
    .orderBy('of', 'desc')
    .orderBy('slug')
    .orderBy('pack')
    .execute()
  const hours = await db
    .selectFrom('job_hours')
    .select(['account_id', 'name', 'task', 'minutes'])
    .where('closing_id', '=', closingId)
    .orderBy('nth')
    .execute()
  const fees = await db
    .selectFrom('job_dump_fee')
    .select(['amount', 'words', 'typed_by'])
    .where('closing_id', '=', closingId)
    .orderBy('nth')
    .execute()
  return { used, left, hours, fees, shares: await findSharesDone(db, closingId) }
}
