import { type RawBuilder, sql } from 'kysely'
import type { Stage } from '../db/schema.ts'

/** The headings of the queue, in order. */
export const STEPS = ['Call', 'Measure', 'Price', 'Follow up', 'Load', 'Bill'] as const
export type Step = (typeof STEPS)[number]

export function isStep(text: unknown): text is Step {
  return (STEPS as readonly unknown[]).includes(text)
}

/**
 * The next step of a request, as SQL over the tables of `queueRows`; null for what is off the list. A quote that
 * was accepted needs a call while no day is booked, and a booked request has a stage of its own.
 */
export function stepInSql(): RawBuilder<Step | null> {
  return sql<Step | null>`case
    when quote_request.stage = 'new' and quote_request.visit_left_out then 'Price'
    when quote_request.stage = 'new' then 'Call'
    when quote_request.stage = 'visit set' then 'Measure'
    when quote_request.stage = 'measured' then 'Price'
    when quote_request.stage = 'quoted' and acceptance.accepted_at is not null then 'Call'
    when quote_request.stage = 'quoted' then 'Follow up'
    when quote_request.stage in ('booked', 'part done') then 'Load'
    when quote_request.stage = 'done' then 'Bill'
  end`
}

/** The same of one request. */
export function stepOf(request: {
  stage: Stage
  visit_left_out: boolean
  accepted_at: string | null
}): Step | null {
  switch (request.stage) {
    case 'new':
      return request.visit_left_out ? 'Price' : 'Call'
    case 'visit set':
      return 'Measure'
    case 'measured':
      return 'Price'
    case 'quoted':
      return request.accepted_at ? 'Call' : 'Follow up'
    case 'booked':
    case 'part done':
      return 'Load'
    case 'done':
      return 'Bill'
    case 'paid':
    case 'called off':
    case 'not taken':
    case "can't do":
    case 'lapsed':
    case 'on hold':
      return null
    default:
      return request.stage satisfies never
  }
}
