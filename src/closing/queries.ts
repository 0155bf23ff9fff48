import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'

/** How a job went, as it was said last. */
export type Closing = NonNullable<Awaited<ReturnType<typeof findClosing>>>

/**
 * How a job went, by the version that stands: the newest, or where it was opened again to what was part done before,
 * that one. Undefined while its work hasn't begun.
 */
export async function findClosing(db: Kysely<Database>, quoteRequestId: number) {
  const { stage } = await db
    .selectFrom('quote_request')
    .select('stage')
    .where('id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
  if (stage === 'booked') return undefined
  const closing = await db
    .selectFrom('job_closing')
    .innerJoin('account', 'account.id', 'job_closing.made_by')
    .select(['job_closing.id', 'version', 'outcome', 'as_planned', 'first_day', 'last_day', 'trips', 'note'])
    .select(['job_closing.made_at', 'made_by', 'account.name as made_by_name'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('outcome', 'in', stage === 'part done' ? ['part done'] : ['done', 'stopped'])
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst()
  // A CHECK keeps the days of whatever wasn't opened again.
  return closing && { ...closing, first_day: closing.first_day!, last_day: closing.last_day! }
}

/** The number that the next version has: one more than there are. */
export async function nextVersion(db: Kysely<Database>, quoteRequestId: number): Promise<number> {
  const { last } = await db
    .selectFrom('job_closing')
    .select(eb => eb.fn.max('version').as('last'))
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
  return (last ?? 0) + 1
}

/** What of each line was done when a job was stopped, in the order of the lines; a line that isn't named was done. */
export async function findSharesDone(db: Kysely<Database>, closingId: number) {
  return db
    .selectFrom('job_share_done')
    .select(['position', 'stop', 'share'])
    .where('closing_id', '=', closingId)
    .orderBy('position')
    .orderBy('stop')
    .execute()
}
