import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/**
 * The jobs that are quoted or booked and not yet done, and use a finish, each with its newest quote: those with a work
 * day first, by day.
 */
export async function findJobsWith(db: Kysely<Database>, finish: string) {
  const uses = JSON.stringify([{ finish }])
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoinLateral(
      eb =>
        eb
          .selectFrom('quote')
          .select([
            'id',
            'job',
            'understood',
            'terms',
            'tax',
            'total',
            'currency',
            'labor_hours',
            'labor_hours_worked_out',
          ])
          .whereRef('quote.quote_request_id', '=', 'quote_request.id')
          .orderBy('quote.revision', 'desc')
          .limit(1)
          .as('quote'),
      join => join.onTrue(),
    )
    .leftJoin('booking', join =>
      join
        .onRef('booking.quote_request_id', '=', 'quote_request.id')
        .on('booking.called_off_at', 'is', null)
        .on('booking.say_by', 'is', null),
    )
    .select([
      'quote_request.number',
      'quote_request.stage',
      'customer.name',
      'booking.first_day',
      'quote.job',
      'quote.understood',
      'quote.terms',
      'quote.tax',
      'quote.total',
      'quote.currency',
      'quote.labor_hours',
      'quote.labor_hours_worked_out',
    ])
    .where('quote_request.stage', 'in', ['quoted', 'day asked', 'week chosen', 'booked', 'part done'])
    .where(sql<boolean>`quote.job -> 'beds' @> ${uses}::text::jsonb`)
    .orderBy(sql`booking.first_day nulls last`)
    .orderBy('quote_request.number')
    .execute()
}

export type JobWithQuote = Awaited<ReturnType<typeof findJobsWith>>[number]
