import { sql } from 'kysely'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { insertBooking } from '../../src/bookings/queries.ts'
import { closeJob } from '../../src/closing/close-job.ts'
import { lockWorkDays } from '../../src/days/queries.ts'
import type { Choices } from '../../src/estimate/understood/choices.ts'
import { dayOf } from '../../src/lib/dates.ts'
import { receiveDeposit } from '../../src/payments/receive.ts'
import { findAcceptedQuote } from '../../src/quotes/queries.ts'
import { lockQuoteRequest, moveTo } from '../../src/requests/stage.ts'
import type { TestApp } from './app.ts'
import { quoteRequest } from './quotes.ts'
import { sendRequest } from './requests.ts'

/** A request that has its firm price, for a job of so many labor hours. The business must be open. */
export async function quotedRequest(app: TestApp, laborHours = '3', instead = {}) {
  const { number } = await sendRequest(app, instead)
  const { id, revision, bookingPath } = await quoteRequest(app, number, { laborHours })
  return { id, number, revision, path: bookingPath }
}

const was = { finish: 'shredded-wood', depth: '3' }

/** Pick one, twice, and an add-on: bark, 2 in deep, a fresh edge. */
export const OFFERED: Choices = {
  picks: [
    { bed: null, finish: 'bark-nuggets', depth: null, was },
    { bed: null, finish: null, depth: '2', was },
  ],
  addOns: [{ bed: null, extra: 'edging' }],
}

/** A request that has its firm price with choices. */
export async function offeredRequest(app: TestApp, instead = {}, wanted = {}) {
  const { number } = await sendRequest(app, instead)
  const { id, revision, bookingPath } = await quoteRequest(app, number, { choices: OFFERED, ...wanted })
  return { id, number, revision, path: bookingPath }
}

/** A request whose price asks for a deposit, accepted; some of it was received. */
export async function depositRequest(app: TestApp, instead = {}) {
  const deposit = { by: 'money', value: '50.00', cap: null, daysBefore: null } as const
  const conditions = { deposit, notice: { en: 'You may cancel.', es: '' }, waits: true }
  const { number } = await sendRequest(app, instead)
  const { id, revision, bookingPath: path } = await quoteRequest(app, number, { conditions })
  await acceptQuote(app.deps, id, { revision, typedName: 'Carol Reyes' })
  const { id: owner } = await app.db
    .selectFrom('account')
    .select('id')
    .orderBy('id')
    .limit(1)
    .executeTakeFirstOrThrow()
  const day = dayOf(app.deps.now(), 'America/Chicago')
  await receiveDeposit(app.deps, owner, id, { nth: 1, amount: '20.00', day, way: 'cash' })
  return { id, number, revision, path }
}

/** The same, accepted by its homeowner without a day. */
export async function acceptedRequest(app: TestApp, laborHours = '3', instead = {}) {
  const quoted = await quotedRequest(app, laborHours, instead)
  await acceptQuote(app.deps, quoted.id, { revision: quoted.revision, typedName: 'Carol Reyes' })
  return quoted
}

/** A job booked for today, which nobody can book so late: as it stands on the morning of its day. */
export async function bookedToday(app: TestApp, hours = '0.5', instead = {}) {
  const accepted = await acceptedRequest(app, hours, instead)
  const at = app.deps.now()
  const day = dayOf(at, 'America/Chicago')
  await app.db.transaction().execute(async trx => {
    const request = await lockQuoteRequest(trx, accepted.id)
    const quote = (await findAcceptedQuote(trx, accepted.id))!
    await lockWorkDays(trx, [day])
    const days = [{ day, hours: quote.labor_hours }]
    await insertBooking(trx, { quoteRequestId: accepted.id, quoteId: quote.id, days }, at)
    await moveTo(trx, request, 'booked', at)
  })
  return accepted
}

/** The same, closed as planned by whoever was the first of the staff. */
export async function closedRequest(app: TestApp) {
  const job = await bookedToday(app)
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .orderBy('id')
    .limit(1)
    .executeTakeFirstOrThrow()
  await closeJob(app.deps, id, job.id, 1)
  return job
}

/** An accepted request whose homeowner asks for a day, which is held; the business goes on as it was. */
export async function askedRequest(app: TestApp, laborHours = '0.25', day = '2026-03-25', instead = {}) {
  const accepted = await acceptedRequest(app, laborHours, instead)
  await app.db.updateTable('business').set({ day_choice: 'ask' }).execute()
  await bookDay(app.deps, accepted.id, day)
  await app.db.updateTable('business').set({ day_choice: 'day' }).execute()
  return accepted
}

/** An accepted request whose homeowner chose a week, which waits for its day; the business goes on as it was. */
export async function weekRequest(app: TestApp, laborHours = '0.25', week = 'week 2026-03-23', instead = {}) {
  const accepted = await acceptedRequest(app, laborHours, instead)
  await app.db.updateTable('business').set({ day_choice: 'week' }).execute()
  await bookDay(app.deps, accepted.id, week)
  await app.db.updateTable('business').set({ day_choice: 'day' }).execute()
  return accepted
}

/** A booked job with a change that waits for an answer. */
export async function changedRequest(app: TestApp, instead = {}) {
  const accepted = await acceptedRequest(app, '0.25', instead)
  await bookDay(app.deps, accepted.id, '2026-03-31')
  await quoteRequest(app, accepted.number, { laborHours: '0.5' })
  return accepted
}

/** The form that accepts, filled in: revision 1, by Carol, for Tuesday, March 3, 2026. */
export function acceptForm(instead: Record<string, unknown> = {}) {
  return { revision: '1', typedName: 'Carol Reyes', read: 'yes', day: '2026-03-03', ...instead }
}

/** Posts a form as a homeowner's browser does. */
export function post(app: TestApp, path: string, fields: Record<string, unknown>) {
  return app.browser().post(path).type('form').send(fields)
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

/**
 * Copies an accepted request as often as there are labor hours, and gives the copies' ids: the verbs would take a
 * minute for a thousand of them.
 */
export async function copyAccepted(app: TestApp, id: number, laborHours: string[]): Promise<number[]> {
  return app.db.transaction().execute(async trx => {
    const copies = sql`unnest(${laborHours}::numeric[]) with ordinality as copy(hours, nth)`
    const { rows } = await sql<{ id: number }>`
      insert into quote_request (number, stage, stage_at, customer_id, place_id, submission_key, put_in_by, language,
        preferred_times, note, told, arrived_at)
      select number || '-' || nth, stage, stage_at, customer_id, place_id, gen_random_uuid(), put_in_by, language,
        preferred_times, note, told, arrived_at from quote_request, ${copies} where id = ${id} order by nth
      returning id`.execute(trx)
    const ids = rows.map(row => row.id)
    await sql`
      with original as (select * from quote where quote_request_id = ${id}), made as (
        insert into quote (quote_request_id, revision, rate_table_id, job, note, total, currency, labor_hours,
          labor_hours_worked_out, holds_until, made_by, made_at)
        select copy.id, revision, rate_table_id, job, note, total, currency, copy.hours, labor_hours_worked_out,
          holds_until, made_by, made_at
        from original, unnest(${ids}::bigint[], ${laborHours}::numeric[]) as copy(id, hours) returning id),
      lines as (
        insert into quote_line (quote_id, position, kind, slug, description, worked_out, amount, reason)
        select made.id, position, kind, slug, description, worked_out, amount, reason
        from made, quote_line where quote_id = (select original.id from original))
      insert into acceptance (quote_id, typed_name, accepted_at)
      select made.id, 'Carol Reyes', (select made_at from original) from made`.execute(trx)
    return ids
  })
}
