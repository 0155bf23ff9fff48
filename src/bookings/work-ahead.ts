import type { Kysely } from 'kysely'
import type { Share } from '../days/room.ts'
import { startText } from '../days/start.ts'
import type { Database } from '../db/schema.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { findBooking, findStage } from './queries.ts'

/** What is still ahead of a job that is booked: all of it, or of what is part done the rest. */
export interface WorkAhead {
  quoteId: number
  /** The days that were worked, and those to come. */
  worked: Share[]
  ahead: Share[]
  /** Labor hours of what is ahead. */
  hours: string
  /** When that begins, see startText. */
  start: string
}

/** The work of a request that can still be moved; undefined where none is booked, or the rest of it has no day. */
export async function findWorkAhead(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<WorkAhead | undefined> {
  const stage = await findStage(db, quoteRequestId)
  const standing = await findBooking(db, quoteRequestId)
  const quote = await findAcceptedQuote(db, quoteRequestId)
  if (!standing || !quote || (stage !== 'booked' && stage !== 'part done')) return undefined
  const { days } = standing
  if (stage === 'booked')
    return { quoteId: quote.id, worked: [], ahead: days, hours: quote.labor_hours, start: standing.start }
  const last = await findLastWorked(db, quoteRequestId)
  const ahead = days.filter(({ day }) => day > last)
  const [first] = ahead
  if (!first) return undefined
  return {
    quoteId: quote.id,
    worked: days.filter(({ day }) => day <= last),
    ahead,
    hours: sumOf(ahead.map(({ hours }) => new Decimal(hours))).toFixed(2),
    start: startText(first),
  }
}

async function findLastWorked(db: Kysely<Database>, quoteRequestId: number): Promise<string> {
  const { last_day } = await db
    .selectFrom('job_closing')
    .select('last_day')
    .where('quote_request_id', '=', quoteRequestId)
    .where('outcome', '=', 'part done')
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirstOrThrow()
  // A CHECK has it there for what was worked.
  return last_day!
}
