import type { Kysely } from 'kysely'
import type { Database, ShareDone } from '../db/schema.ts'

/** What closing a job said of it, as far as a bill needs it: of lines that aren't named all was done. */
export interface WhatWasDone {
  /** The first and the last day worked, 'YYYY-MM-DD'; null where they aren't known. */
  firstDay: string | null
  lastDay: string | null
  shares: ShareDone[]
}

/** The days that were booked stand for those worked. */
export async function findWhatWasDone(db: Kysely<Database>, quoteRequestId: number): Promise<WhatWasDone> {
  const { first, last } = await db
    .selectFrom('booking')
    .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select(eb => [eb.fn.min('day').as('first'), eb.fn.max('day').as('last')])
    .where('quote_request_id', '=', quoteRequestId)
    .where('called_off_at', 'is', null)
    .executeTakeFirstOrThrow()
  return { firstDay: first ?? null, lastDay: last ?? null, shares: [] }
}
