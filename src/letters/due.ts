import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/** Visits ahead of which no reminder was written, within three days. */
export async function findVisitsAhead(db: Kysely<Database>, now: Temporal.Instant) {
  return db
    .selectFrom('visit')
    .innerJoin('quote_request', 'quote_request.id', 'visit.quote_request_id')
    .select(['visit.id', 'visit.quote_request_id', 'visit.starts_at', 'visit.made_at'])
    .where('quote_request.stage', '=', 'visit set')
    .where('quote_request.junk_at', 'is', null)
    .where('visit.done_at', 'is', null)
    .where('visit.called_off_at', 'is', null)
    .where('visit.starts_at', '>', now.toString())
    .where('visit.starts_at', '<', now.add({ hours: 72 }).toString())
    .where(notWritten(sql`'visit-tomorrow ' || visit.id`))
    .orderBy('visit.id')
    .execute()
}

/** Bookings whose first day is one of two, and of which no reminder was written. */
export async function findBookingsAhead(db: Kysely<Database>, today: string, tomorrow: string) {
  return db
    .selectFrom('booking')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .select(['booking.quote_request_id', 'booking.first_day', 'booking.made_at'])
    .where('quote_request.stage', '=', 'booked')
    .where('booking.called_off_at', 'is', null)
    .where('booking.first_day', 'in', [today, tomorrow])
    .where(notWritten(sql`'work-tomorrow ' || booking.quote_request_id || ' ' || booking.first_day::text`))
    .orderBy('booking.id')
    .execute()
}

/**
 * Prices that the homeowner was told and hasn't answered: when that was first, until when they hold, and which reminders
 * were written. None of a request that is on hold, or of which there is news: then somebody is to answer first.
 */
export async function findPricesWaiting(db: Kysely<Database>, today: string) {
  const told = sql<string | null>`least(
    (select sent_at from quote_sent where quote_id = quote.id),
    (select min(sent_at) from outbox where outbox.quote_request_id = quote.quote_request_id
      and outbox.kind = 'quote-ready' and outbox.made_at >= quote.made_at))`
  const rows = await db
    .selectFrom('quote')
    .innerJoin('quote_request', 'quote_request.id', 'quote.quote_request_id')
    .leftJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .select(['quote.id', 'quote.quote_request_id', 'quote.holds_until', told.as('told_at')])
    .select([
      notWritten(sql`'follow-up ' || quote.id`).as('to_follow_up'),
      notWritten(sql`'expiring ' || quote.id`).as('to_say_expiring'),
    ])
    .where('quote_request.stage', '=', 'quoted')
    .where('quote_request.junk_at', 'is', null)
    .where('quote_request.news_from', 'is', null)
    .where(sql<boolean>`coalesce(quote_request.on_hold_until <= ${today}::date, true)`)
    .where('acceptance.quote_id', 'is', null)
    .where('quote.holds_until', '>=', today)
    .where(sql<boolean>`not exists (select from quote as newer
      where newer.quote_request_id = quote.quote_request_id and newer.revision > quote.revision)`)
    .orderBy('quote.id')
    .execute()
  return rows.filter(row => row.told_at !== null).map(row => ({ ...row, told_at: row.told_at! }))
}

function notWritten(once: ReturnType<typeof sql>) {
  return sql<boolean>`not exists (select from outbox where outbox.once = ${once})`
}
