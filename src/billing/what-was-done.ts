import type { Kysely } from 'kysely'
import { findClosing, findSharesDone } from '../closing/queries.ts'
import type { ShareDone } from '../db/schema/bills.ts'
import type { Database } from '../db/schema.ts'

/** What closing a job said of it, as far as a bill needs it: of lines that aren't named all was done. */
export interface WhatWasDone {
  /** The first and the last day worked, 'YYYY-MM-DD'; null where they aren't known. */
  firstDay: string | null
  lastDay: string | null
  shares: ShareDone[]
}

export async function findWhatWasDone(db: Kysely<Database>, quoteRequestId: number): Promise<WhatWasDone> {
  const closing = await findClosing(db, quoteRequestId)
  if (!closing) return { firstDay: null, lastDay: null, shares: [] }
  const { id, outcome, first_day: firstDay, last_day: lastDay } = closing
  return { firstDay, lastDay, shares: outcome === 'stopped' ? await findSharesDone(db, id) : [] }
}
