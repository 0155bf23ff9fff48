import { type Kysely, sql } from 'kysely'
import { STEPS, type Step } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import { HOMEOWNERS_NEWS } from '../requests/history.ts'
import { findRows, type QueueRow } from './rows.ts'
import { type Narrowed, partsOf, type SeenAt, waiting } from './steps.ts'

export const SHOWN_OF_EACH = 25
const SHOWN_ON_A_PAGE = 50
const NEWS_SHOWN = 25

/** After which row a page goes on: what the rows are in the order of, and the request's id. */
export interface After {
  due: string
  id: number
}

/** The rows of a page, and whether others follow. */
export interface Page {
  rows: QueueRow[]
  more: boolean
}

/** Under each step the first rows, those due first on top; `more` where others follow. */
export async function findQueue(
  db: Kysely<Database>,
  narrowed: Narrowed,
  at: SeenAt,
): Promise<Record<Step, Page>> {
  const found = await Promise.all(
    STEPS.map(async step => [step, await findOfStep(db, step, narrowed, at, null, SHOWN_OF_EACH)] as const),
  )
  const rows = await findRows(
    db,
    found.flatMap(([, { ids }]) => ids),
  )
  const byId = new Map(rows.map(row => [row.id, row]))
  return Object.fromEntries(
    found.map(([step, { ids, more }]) => [step, { rows: ids.flatMap(id => byId.get(id) ?? []), more }]),
  ) as Record<Step, Page>
}

/** One step from a row on. */
export async function findStep(
  db: Kysely<Database>,
  step: Step,
  narrowed: Narrowed,
  at: SeenAt,
  after: After | null,
): Promise<Page> {
  const { ids, more } = await findOfStep(db, step, narrowed, at, after, SHOWN_ON_A_PAGE)
  return { rows: await findRows(db, ids), more }
}

async function findOfStep(
  db: Kysely<Database>,
  step: Step,
  narrowed: Narrowed,
  at: SeenAt,
  after: After | null,
  shown: number,
) {
  // Each part by the index, so that no more is read than is shown.
  const [first, ...others] = partsOf(step).map(part =>
    waiting(db, part, narrowed, at)
      .$if(Boolean(after?.due), query =>
        query.where(sql<boolean>`(due_at, id) > (${after!.due}::timestamptz, ${after!.id}::bigint)`),
      )
      .select(['id', 'due_at'])
      .orderBy('due_at')
      .orderBy('id')
      .limit(shown + 1),
  )
  const all = others.reduce((union, part) => sql`${union} union all (${part})`, sql`(${first!})`)
  const { rows } = await sql<{ id: number }>`
    select id from (${all}) as found order by due_at, id limit ${shown + 1}`.execute(db)
  return { ids: rows.slice(0, shown).map(({ id }) => id), more: rows.length > shown }
}

/** Those with something that the homeowner did and nobody has looked at, oldest first, each with its history. */
export async function findNews(db: Kysely<Database>) {
  const found = await db
    .selectFrom('quote_request')
    .select(['id', 'news_from'])
    .where('news_from', 'is not', null)
    .where('junk_at', 'is', null)
    .orderBy('news_from')
    .limit(NEWS_SHOWN)
    .execute()
  if (found.length === 0) return []
  const rows = await findRows(
    db,
    found.map(({ id }) => id),
  )
  const told = await db
    .selectFrom('history')
    .innerJoin('quote_request', 'quote_request.id', 'history.quote_request_id')
    .select(['history.id', 'history.quote_request_id', 'history.verb', 'history.detail', 'history.at'])
    .where(
      'quote_request.id',
      'in',
      found.map(({ id }) => id),
    )
    .whereRef('history.id', '>=', 'quote_request.news_from')
    .where('history.by_kind', '=', 'homeowner')
    .where('history.verb', 'in', HOMEOWNERS_NEWS)
    .orderBy('history.id')
    .execute()
  return rows.map(row => ({ row, news: told.filter(one => one.quote_request_id === row.id) }))
}

/** Those on hold, the first to come back on top; or junk, the newest on top. */
export async function findApart(
  db: Kysely<Database>,
  which: 'hold' | 'junk',
  { today }: SeenAt,
  after: After | null,
): Promise<Page> {
  const asked = db
    .selectFrom('quote_request')
    .select('id')
    .limit(SHOWN_ON_A_PAGE + 1)
  const found =
    which === 'hold'
      ? asked
          .where('step', 'is not', null)
          .where('on_hold_until', '>', today)
          .$if(Boolean(after?.due), query =>
            query.where(sql<boolean>`(on_hold_until, id) > (${after!.due}::date, ${after!.id}::bigint)`),
          )
          .orderBy('on_hold_until')
          .orderBy('id')
      : asked
          .where('junk_at', 'is not', null)
          .where('erased_at', 'is', null)
          .$if(Boolean(after?.due), query =>
            query.where(sql<boolean>`(junk_at, id) < (${after!.due}::timestamptz, ${after!.id}::bigint)`),
          )
          .orderBy('junk_at', 'desc')
          .orderBy('id', 'desc')
  const ids = (await found.execute()).map(({ id }) => id)
  return { rows: await findRows(db, ids.slice(0, SHOWN_ON_A_PAGE)), more: ids.length > SHOWN_ON_A_PAGE }
}

/** How many are on hold, and how many are junk. */
export async function countApart(
  db: Kysely<Database>,
  { today }: SeenAt,
): Promise<{ hold: number; junk: number }> {
  return db
    .selectNoFrom(eb => [
      eb
        .selectFrom('quote_request')
        .select(eb => eb.fn.countAll<number>().as('count'))
        .where('step', 'is not', null)
        .where('on_hold_until', '>', today)
        .$asScalar()
        .as('hold'),
      eb
        .selectFrom('quote_request')
        .select(eb => eb.fn.countAll<number>().as('count'))
        .where('junk_at', 'is not', null)
        .where('erased_at', 'is', null)
        .$asScalar()
        .as('junk'),
    ])
    .executeTakeFirstOrThrow()
}
