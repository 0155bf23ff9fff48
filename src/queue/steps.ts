import { type Kysely, sql } from 'kysely'
import { STEPS, type Step } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'

/** What the list is narrowed to, as its address says. */
export interface Narrowed {
  /** Those given to this account, or to nobody; null for everybody's. */
  givenTo: number | 'nobody' | null
}

/** As of when the list is seen: a moment, and the day that it is where the business is. */
export interface SeenAt {
  now: Temporal.Instant
  today: string
}

export function isStep(text: unknown): text is Step {
  return (STEPS as readonly unknown[]).includes(text)
}

/** The step under which a request is shown: a quote left unanswered until it is due needs a call. */
export function shownStep(
  row: { step: Step | null; due_at: string | null },
  now: Temporal.Instant,
): Step | null {
  const isDue = row.due_at !== null && Temporal.Instant.compare(row.due_at, now) <= 0
  return row.step === 'Follow up' && isDue ? 'Call' : row.step
}

/** The kept steps whose rows are shown under a step, each with the part of them that is. */
export function partsOf(step: Step): { kept: Step; due: 'by now' | 'later' | null }[] {
  if (step === 'Call')
    return [
      { kept: 'Call', due: null },
      { kept: 'Follow up', due: 'by now' },
    ]
  return [{ kept: step, due: step === 'Follow up' ? 'later' : null }]
}

/** The requests of one part of a step that aren't on hold, by the index that keeps them in order. */
export function waiting(
  db: Kysely<Database>,
  { kept, due }: ReturnType<typeof partsOf>[number],
  { givenTo }: Narrowed,
  { now, today }: SeenAt,
) {
  return db
    .selectFrom('quote_request')
    .where('step', '=', kept)
    .$if(due === 'by now', query => query.where('due_at', '<=', now.toString()))
    .$if(due === 'later', query => query.where('due_at', '>', now.toString()))
    .where(eb => eb.or([eb('on_hold_until', 'is', null), eb('on_hold_until', '<=', today)]))
    .$if(givenTo === 'nobody', query => query.where('given_to', 'is', null))
    .$if(typeof givenTo === 'number', query => query.where('given_to', '=', givenTo as number))
}

/** No step is counted further than this: more is more. */
export const MOST_COUNTED = 1000

/** How many wait under each step, at most MOST_COUNTED of each kept step. */
export async function countSteps(
  db: Kysely<Database>,
  narrowed: Narrowed,
  at: SeenAt,
): Promise<Map<Step, number>> {
  const parts = STEPS.flatMap(step => partsOf(step).map(part => ({ step, part })))
  const counts = parts.map(({ part }) => {
    const few = waiting(db, part, narrowed, at).select(sql<number>`1`.as('one')).limit(MOST_COUNTED)
    return sql<number>`(select count(*) from ${few} as few)`
  })
  const { rows } = await sql<{ counts: number[] }>`select array[${sql.join(counts)}] as counts`.execute(db)
  const found = new Map<Step, number>()
  for (const [nth, { step }] of parts.entries())
    found.set(step, (found.get(step) ?? 0) + rows[0]!.counts[nth]!)
  return found
}

/** How many wait under each step, all of them, and since when the oldest stands where it does; null where none waits. */
export async function findLongestWaiting(
  db: Kysely<Database>,
  at: SeenAt,
): Promise<{ step: Step; count: number; since: string | null }[]> {
  const found = []
  for (const step of STEPS) {
    const [first, ...others] = partsOf(step).map(part =>
      waiting(db, part, { givenTo: null }, at).select('stage_at'),
    )
    const all = others.reduce((union, part) => sql`${union} union all (${part})`, sql`(${first!})`)
    const { rows } = await sql<{ count: number; since: string | null }>`
      select count(*) as count, min(stage_at) as since from (${all}) as found`.execute(db)
    found.push({ step, ...rows[0]! })
  }
  return found
}
