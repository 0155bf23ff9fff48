import type { Kysely, Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'

/** Who did something: the homeowner by a link, somebody of the staff, or the passing of time. */
export type Doer = { kind: 'homeowner' } | { kind: 'staff'; accountId: number } | { kind: 'clock' }

/** Writes down who did what to a quote request; every verb does, in its own transaction. */
export async function recordHistory(
  trx: Transaction<Database>,
  quoteRequestId: number,
  doer: Doer,
  verb: string,
  at: Temporal.Instant,
  detail: Record<string, string> = {},
): Promise<void> {
  await trx
    .insertInto('history')
    .values({
      quote_request_id: quoteRequestId,
      at: at.toString(),
      by_kind: doer.kind,
      account_id: doer.kind === 'staff' ? doer.accountId : null,
      verb,
      detail: json(detail),
    })
    .execute()
}

/** What happened to a quote request, newest first. */
export async function findHistory(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('history')
    .leftJoin('account', 'account.id', 'history.account_id')
    .select([
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
