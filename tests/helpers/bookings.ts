import { acceptQuote } from '../../src/bookings/booking.ts'
import type { TestApp } from './app.ts'
import { quoteRequest } from './quotes.ts'
import { sendRequest } from './requests.ts'

/** A request that has its firm price, for a job of so many crew hours. The business must be open. */
export async function quotedRequest(app: TestApp, crewHours = '3', instead = {}) {
  const { number } = await sendRequest(app, instead)
  const { id, revision, bookingPath } = await quoteRequest(app, number, { crewHours })
  return { id, number, revision, path: bookingPath }
}

/** The same, accepted by its homeowner without a day. */
export async function acceptedRequest(app: TestApp, crewHours = '3', instead = {}) {
  const quoted = await quotedRequest(app, crewHours, instead)
  await acceptQuote(app.deps, quoted.id, { revision: quoted.revision, typedName: 'Carol Reyes' })
  return quoted
}

/** What the database holds of a request: its stage, acceptances, standing bookings, history and mails. */
export async function standing(app: TestApp, id: number) {
  const { stage } = await app.db
    .selectFrom('quote_request')
    .select('stage')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const accepted = await app.db
    .selectFrom('acceptance')
    .innerJoin('quote', 'quote.id', 'acceptance.quote_id')
    .select(['quote.revision', 'acceptance.typed_name'])
    .where('quote.quote_request_id', '=', id)
    .execute()
  const days = await app.db
    .selectFrom('booking')
    .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select(['booking_day.day', 'booking_day.hours'])
    .where('booking.quote_request_id', '=', id)
    .where('booking.called_off_at', 'is', null)
    .orderBy('booking_day.day')
    .execute()
  const verbs = await app.db
    .selectFrom('history')
    .select('verb')
    .where('quote_request_id', '=', id)
    .orderBy('id')
    .execute()
  const mails = await app.db.selectFrom('outbox').select('kind').where('quote_request_id', '=', id).execute()
  return { stage, accepted, days, verbs: verbs.map(row => row.verb), mails: mails.map(row => row.kind) }
}
