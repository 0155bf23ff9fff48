import type { Kysely, Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'

/** Who did something: the homeowner by a link, somebody of the staff, or the passing of time. */
export type Doer = { kind: 'homeowner' } | { kind: 'staff'; accountId: number } | { kind: 'clock' }

/** What a homeowner does that stands out until somebody has looked. */
export const HOMEOWNERS_NEWS = [
  'note added',
  'question asked',
  'photos added',
  'phone changed',
  'accepted',
  'change declined',
  'day asked',
  'week chosen',
  'day booked',
  'work moved',
  'day unsuited',
  'visit set',
  'visit moved',
  'visit called off',
  'time unsuited',
  'called off',
  'not taken',
]
/** What the staff do that answers it, whatever it was. */
const ANSWERS = [
  'visit set',
  'visit moved',
  'times offered',
  'quoted',
  'day booked',
  'day declined',
  'work moved',
  'moved for rain',
  'kept as set',
  "can't do",
  'taken up again as',
]

/**
 * Writes down who did what to a quote request; every verb does, in its own transaction. What is news stands out in the
 * queue from then on, until it is answered or marked as seen.
 */
export async function recordHistory(
  trx: Transaction<Database>,
  quoteRequestId: number,
  doer: Doer,
  verb: string,
  at: Temporal.Instant,
  detail: Record<string, string> = {},
): Promise<void> {
  const { id } = await trx
    .insertInto('history')
    .values({
      quote_request_id: quoteRequestId,
      at: at.toString(),
      by_kind: doer.kind,
      account_id: doer.kind === 'staff' ? doer.accountId : null,
      verb,
      detail: json(detail),
    })
    .returning('id')
    .executeTakeFirstOrThrow()
  if (doer.kind === 'homeowner' && HOMEOWNERS_NEWS.includes(verb)) await keepNews(trx, quoteRequestId, id)
  if (doer.kind === 'staff' && ANSWERS.includes(verb)) await forgetNews(trx, quoteRequestId)
}

async function keepNews(trx: Transaction<Database>, quoteRequestId: number, historyId: number) {
  await trx
    .updateTable('quote_request')
    .set({ news_from: historyId })
    .where('id', '=', quoteRequestId)
    .where('news_from', 'is', null)
    .execute()
}

async function forgetNews(trx: Transaction<Database>, quoteRequestId: number) {
  await trx
    .updateTable('quote_request')
    .set({ news_from: null })
    .where('id', '=', quoteRequestId)
    .where('news_from', 'is not', null)
    .execute()
}

/** What happened to a quote request, newest first. */
export async function findHistory(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('history')
    .leftJoin('account', 'account.id', 'history.account_id')
    .select([
      'history.id',
      'history.at',
      'history.by_kind',
      'history.verb',
      'history.detail',
      'account.name as account_name',
    ])
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('history.id', 'desc')
    .execute()
}
