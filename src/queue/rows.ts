import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/** One row of the list: what came, what it may cost or costs, and all that its next step needs. */
export function queueRows(db: Kysely<Database>) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .leftJoin('account', 'account.id', 'quote_request.given_to')
    .leftJoinLateral(
      eb =>
        eb
          .selectFrom('quote')
          .select(['id', 'total', 'currency', 'holds_until', 'made_at', 'conditions'])
          .whereRef('quote.quote_request_id', '=', 'quote_request.id')
          .orderBy('quote.revision', 'desc')
          .limit(1)
          .as('quote'),
      join => join.onTrue(),
    )
    .leftJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .leftJoin('quote_sent', 'quote_sent.quote_id', 'quote.id')
    .leftJoin('quote_seen', 'quote_seen.quote_id', 'quote.id')
    .leftJoin('visit', join =>
      join
        .onRef('visit.quote_request_id', '=', 'quote_request.id')
        .on('visit.done_at', 'is', null)
        .on('visit.called_off_at', 'is', null),
    )
    .leftJoin('booking', join =>
      join.onRef('booking.quote_request_id', '=', 'quote_request.id').on('booking.called_off_at', 'is', null),
    )
    .select([
      'quote_request.id',
      'quote_request.number',
      'quote_request.stage',
      'quote_request.stage_at',
      'quote_request.arrived_at',
      'quote_request.preferred_times',
      'quote_request.step',
      'quote_request.due_at',
      'quote_request.calls',
      'quote_request.call_again_at',
      'quote_request.on_hold_until',
      'quote_request.junk_at',
      'quote_request.unreached_at',
      'quote_request.unsuited_at',
      'quote_request.sent_as',
      'quote_request.news_from',
    ])
    .select(sql<boolean>`quote_request.measured is not null`.as('is_measured'))
    .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
    .select([
      'customer.name',
      'customer.phone',
      'customer.email',
      'place.street',
      'place.postcode',
      'account.name as given_to_name',
    ])
    .select(['ballpark.low', 'ballpark.high', 'quote.total', 'quote.currency', 'quote.holds_until'])
    .select('quote.conditions')
    .select(eb =>
      eb
        .selectFrom('payment')
        .select(eb => eb.fn.sum<string | null>('payment.amount').as('sum'))
        .whereRef('payment.quote_request_id', '=', 'quote_request.id')
        .as('held'),
    )
    .select(sql<string>`money_owed(quote_request.id)`.as('owed'))
    .select(eb =>
      eb
        .selectFrom('bill')
        .select(eb => eb.fn.max('bill.due').as('due'))
        .whereRef('bill.quote_request_id', '=', 'quote_request.id')
        .where('bill.kind', '=', 'bill')
        .where(({ not, exists, selectFrom }) =>
          not(
            exists(
              selectFrom('bill as credit').select('credit.id').whereRef('credit.undoes', '=', 'bill.id'),
            ),
          ),
        )
        .as('bill_due'),
    )
    .select(['acceptance.accepted_at', 'visit.starts_at', 'booking.first_day', 'booking.say_by'])
    .select(['quote_sent.sent_at as handed_over_at', 'quote_seen.seen_at'])
    .select(eb =>
      eb
        .selectFrom('outbox')
        .select(eb => eb.fn.max('outbox.sent_at').as('at'))
        .whereRef('outbox.quote_request_id', '=', 'quote_request.id')
        .whereRef('outbox.made_at', '>=', 'quote.made_at')
        .where('outbox.kind', '=', 'quote-ready')
        .as('mailed_at'),
    )
}

export type QueueRow = Awaited<ReturnType<ReturnType<typeof queueRows>['execute']>>[number]

/** The rows of these requests, in their order. */
export async function findRows(db: Kysely<Database>, ids: number[]): Promise<QueueRow[]> {
  if (ids.length === 0) return []
  const rows = await queueRows(db).where('quote_request.id', 'in', ids).execute()
  const byId = new Map(rows.map(row => [row.id, row]))
  return ids.flatMap(id => byId.get(id) ?? [])
}
