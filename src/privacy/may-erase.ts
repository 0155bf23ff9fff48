import { type Kysely, sql } from 'kysely'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'

/** How a request stands towards being erased; `kept_until` is the last day on which its papers are kept, null without any. */
export interface RequestStanding {
  id: number
  number: string
  stage: Stage
  erased_at: string | null
  papers_erased_at: string | null
  kept_until: string | null
  holds_money: boolean
}

/** Why somebody can't be erased yet: a request by its number, or '' of what they have with the business. */
export interface HeldUp {
  number: string
  why: 'work' | 'bill' | 'money' | 'credit'
}

export async function findStanding(db: Kysely<Database>, requests: number[]): Promise<RequestStanding[]> {
  const { rows } = await sql<RequestStanding>`
    select id, number, stage, erased_at, papers_erased_at, papers_kept_until(id) as kept_until,
      holds_money(id) as holds_money
    from quote_request where id = any(${requests}::bigint[]) order by id`.execute(db)
  return rows
}

const AHEAD: Stage[] = ['day asked', 'week chosen', 'booked', 'part done']

/** What stands in the way of erasing the customers of a group. */
export async function heldUp(
  db: Kysely<Database>,
  customers: number[],
  standing: RequestStanding[],
): Promise<HeldUp[]> {
  const held = standing.flatMap(({ number, stage, holds_money }): HeldUp[] => {
    if (AHEAD.includes(stage)) return [{ number, why: 'work' }]
    if (stage === 'done') return [{ number, why: 'bill' }]
    return holds_money || stage === 'billed' ? [{ number, why: 'money' }] : []
  })
  const { rows } = await sql<{ credit: boolean }>`
    select coalesce(sum(amount), 0) <> 0 as credit from payment
    join quote_request on quote_request.id = quote_request_id
    where way = 'credit' and customer_id = any(${customers}::bigint[])`.execute(db)
  return rows[0]!.credit ? [...held, { number: '', why: 'credit' }] : held
}
