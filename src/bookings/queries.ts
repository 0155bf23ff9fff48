import type { Kysely, Transaction } from 'kysely'
import type { Share } from '../days/room.ts'
import { startText } from '../days/start.ts'
import { mondayOf, weekText } from '../days/week.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import { isCheckViolation } from '../db/violations.ts'
import { DayGone } from './refusals.ts'

/**
 * The booking of a request that stands, with its days in order and the labor hours on each; `held_until` of one that is
 * asked for, `say_by` of a week whose day isn't said: `start` is that week then (see weekText), else see startText. It
 * `begins` on its first day, as far as that is said, else with its week.
 */
export async function findBooking(db: Kysely<Database>, quoteRequestId: number) {
  const days = await db
    .selectFrom('booking')
    .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select(['booking.first_day', 'booking.held_until', 'booking.say_by'])
    .select(['booking_day.day', 'booking_day.hours', 'booking_day.part'])
    .where('booking.quote_request_id', '=', quoteRequestId)
    .where('booking.called_off_at', 'is', null)
    .orderBy('booking_day.day')
    .execute()
  const first = days[0]
  if (!first) return undefined
  const { first_day, held_until, say_by } = first
  const shares = days.map(({ day, hours, part }) => ({ day, hours, ...(part && { part }) }))
  const start =
    say_by === null ? startText({ day: first_day, part: first.part }) : weekText(mondayOf(first_day))
  const begins = say_by === null ? first_day : mondayOf(first_day)
  return { first_day, begins, held_until, say_by, start, days: shares }
}

/** What the booking pages say of a request: its number and stage, who it is for and where. */
export async function requireBookingRequest(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select(['quote_request.id', 'quote_request.number', 'quote_request.stage'])
    .select(['customer.name', 'customer.email', 'place.street', 'place.postcode'])
    .where('quote_request.id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
}

export async function insertAcceptance(
  trx: Transaction<Database>,
  quoteId: number,
  typedName: string,
  at: Temporal.Instant,
  takenBy: number | null,
): Promise<void> {
  await trx
    .insertInto('acceptance')
    .values({ quote_id: quoteId, typed_name: typedName, accepted_at: at.toString(), taken_by: takenBy })
    .execute()
}

export async function insertAcceptedText(
  trx: Transaction<Database>,
  quoteId: number,
  { text, language, digest }: { text: string; language: 'en' | 'es'; digest: string },
): Promise<void> {
  await trx.insertInto('accepted_text').values({ quote_id: quoteId, text, language, digest }).execute()
}

/**
 * Writes a booking and its days down.
 * @throws {DayGone} when the database finds that one of the days has no room for its share; the transaction is over then
 */
export async function insertBooking(
  trx: Transaction<Database>,
  booking: {
    quoteRequestId: number
    quoteId: number
    days: Share[]
    heldUntil?: string
    sayBy?: string
  },
  at: Temporal.Instant,
): Promise<void> {
  const { id } = await trx
    .insertInto('booking')
    .values({
      quote_request_id: booking.quoteRequestId,
      quote_id: booking.quoteId,
      first_day: booking.days[0]!.day,
      made_at: at.toString(),
      called_off_at: null,
      held_until: booking.heldUntil ?? null,
      say_by: booking.sayBy ?? null,
    })
    .returning('id')
    .executeTakeFirstOrThrow()
  await trx
    .insertInto('booking_day')
    .values(booking.days.map(({ day, hours, part = null }) => ({ booking_id: id, day, hours, part })))
    .execute()
    .catch(error => {
      throw isCheckViolation(error, 'work_day_has_room') ? new DayGone() : error
    })
}

/** Requests whose newest quote held until before `today` and was not accepted. */
export async function findPastQuotes(db: Kysely<Database>, today: string): Promise<number[]> {
  const rows = await db
    .selectFrom('quote_request')
    .innerJoin('quote', 'quote.quote_request_id', 'quote_request.id')
    .leftJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .select('quote_request.id')
    .where('quote_request.stage', '=', 'quoted')
    .where('quote.holds_until', '<', today)
    .where('acceptance.quote_id', 'is', null)
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('quote as newer')
            .select('newer.id')
            .whereRef('newer.quote_request_id', '=', 'quote_request.id')
            .whereRef('newer.revision', '>', 'quote.revision'),
        ),
      ),
    )
    .orderBy('quote_request.id')
    .execute()
  return rows.map(row => row.id)
}

/** Whether a change to accepted work was declined, or taken back. */
export async function isDeclined(db: Kysely<Database>, quoteId: number): Promise<boolean> {
  const row = await db
    .selectFrom('change_declined')
    .select('quote_id')
    .where('quote_id', '=', quoteId)
    .executeTakeFirst()
  return row !== undefined
}

/** The stage that a request is at. */
export async function findStage(db: Kysely<Database>, quoteRequestId: number): Promise<Stage | undefined> {
  const row = await db
    .selectFrom('quote_request')
    .select('stage')
    .where('id', '=', quoteRequestId)
    .executeTakeFirst()
  return row?.stage
}
