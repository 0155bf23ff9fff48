import { randomUUID } from 'node:crypto'
import { bookDay } from '../../src/bookings/booking.ts'
import { declineDay, endPastHolds } from '../../src/bookings/day-asked.ts'
import { workOnce } from '../../src/bookings/messages.ts'
import { findRainJobs, moveForRain } from '../../src/bookings/rain.ts'
import { changeChoices, findChoices } from '../../src/outbox/choices.ts'
import type { HomeownerMessage } from '../../src/outbox/kinds.ts'
import { putInOutbox } from '../../src/outbox/outbox.ts'
import { giveBack } from '../../src/payments/pay.ts'
import { quoteOnce } from '../../src/quotes/messages.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { mailHomeowner } from '../../src/requests/mail-homeowner.ts'
import { visitOnce } from '../../src/visits/messages.ts'
import { offerTimes } from '../../src/visits/pick-time.ts'
import { setVisit } from '../../src/visits/visit.ts'
import type { TestApp } from '../helpers/app.ts'
import { paidByCheck, pay } from '../helpers/bills.ts'
import { acceptedRequest, askedRequest, quotedRequest, weekRequest } from '../helpers/bookings.ts'
import { offerSent } from '../helpers/offers.ts'
import { sendRequest } from '../helpers/requests.ts'
import type { Listener } from './listening.ts'

/** What the clock has written, and what sells; and how the homeowner says what is wanted of it. */
export async function walkWhatComesUnasked({ get, post }: Listener, app: TestApp, ownerId: number) {
  const { deps, db } = app
  const off = Object.entries(await findChoices(db)).map(([name, { days }]) => [name, { choice: 'on', days }])
  await changeChoices(db, Object.fromEntries(off))
  const write = (kind: HomeownerMessage, id: number, once: string) =>
    db.transaction().execute(trx => mailHomeowner(trx, deps, kind, id, deps.now(), { once }))
  const visited = await sendRequest(app)
  await setVisit(deps, ownerId, visited.id, deps.now().add({ hours: 48 }))
  const visit = await db
    .selectFrom('visit')
    .select('id')
    .where('quote_request_id', '=', visited.id)
    .executeTakeFirstOrThrow()
  await write('visit-tomorrow', visited.id, visitOnce(visit.id))
  const asked = await sendRequest(app)
  const times = [72, 96].map(hours => deps.now().add({ hours }))
  await offerTimes(deps, ownerId, asked.id, times)
  await get('/r/:token/visit', `${asked.ownPath}/visit`)
  await post('/r/:token/visit', `${asked.ownPath}/visit`, { seen: '0', pick: 'tomorrow' })
  await post('/r/:token/visit', `${asked.ownPath}/visit`, { seen: '0', pick: times[0]!.toString() })
  await offerTimes(deps, ownerId, (await sendRequest(app)).id, times)
  const { id } = await quotedRequest(app)
  const quote = await db
    .selectFrom('quote')
    .select('id')
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  for (const kind of ['follow-up', 'expiring'] as const) await write(kind, id, quoteOnce(kind, quote.id))
  const { id: booked } = await acceptedRequest(app, '0.5')
  await bookDay(deps, booked, '2026-03-11')
  await write('work-tomorrow', booked, workOnce(booked, '2026-03-11'))
  await walkToAnotherDay({ get, post }, app, ownerId)
  await walkToAskedDays(get, app, ownerId)
  await walkToMoneyBack(app, ownerId)
  await acceptedRequest(app)
  await db
    .transaction()
    .execute(trx => putInOutbox(trx, deps.jobs, 'digest-staff', 'owner', booked, deps.now()))
  await post('/r/:token/wishes', `${visited.ownPath}/wishes`, { offersMail: 'yes' })
  await get('/r/:token', visited.ownPath)
  const stop = await offerSent(app, ownerId)
  await get('/offers-off/:id/:token', stop)
  const another = await offerSent(app, ownerId)
  await post('/offers-off/:id/:token', stop)
  await db.updateTable('consent').set({ given: true }).execute()
  await get('/offers-off/:id/:token', another)
}

/** Work that its homeowner moves, that rain moves, and that doesn't suit then. */
async function walkToAnotherDay(
  { get, post }: Pick<Listener, 'get' | 'post'>,
  app: TestApp,
  ownerId: number,
) {
  const { deps, db } = app
  const moved: number[] = []
  for (const from of ['2026-03-12', '2026-03-13']) {
    const { id } = await acceptedRequest(app, '0.5')
    await bookDay(deps, id, from)
    moved.push(id)
  }
  const [own, rained] = moved as [number, number]
  const path = `${await findLinkPath(db, deps.secretKey, 'own page', own)}/day`
  await get('/r/:token/day', path)
  await post('/r/:token/day', path, { from: '2026-03-12', day: '2026-03-16' })
  await post('/r/:token/day', path, { from: '2026-03-16', day: 'none', words: 'Away' })
  const jobs = await findRainJobs(db, '2026-03-13')
  const to = (id: number) => (id === rained ? '2026-03-17' : null)
  const choices = jobs.map(job => ({ bookingId: job.bookingId, to: to(job.quoteRequestId) }))
  await moveForRain(deps, ownerId, { key: randomUUID(), day: '2026-03-13', choices })
}

/** Days that are asked for: one waits, one can't be, one wasn't answered in time. */
async function walkToAskedDays(get: Listener['get'], app: TestApp, ownerId: number) {
  const { deps, db } = app
  const waits = await askedRequest(app, '0.25', '2026-03-23')
  await get('/b/:token', waits.path)
  await get('/b/:token', (await weekRequest(app)).path)
  const { id: declined } = await askedRequest(app, '0.25', '2026-03-24')
  await declineDay(deps, ownerId, declined, { day: '2026-03-24', offered: '2026-03-25', words: '' })
  const { id: late } = await askedRequest(app, '0.25', '2026-03-26')
  const past = deps.now().toString()
  await db.updateTable('booking').set({ held_until: past }).where('quote_request_id', '=', late).execute()
  await endPastHolds(deps)
}

/** A bill that was paid too much, so that some of it goes back. */
async function walkToMoneyBack(app: TestApp, ownerId: number) {
  const { id, total } = await paidByCheck(app)
  await pay(app, id, total)
  await giveBack(app.deps, ownerId, id, { nth: 3, amount: total, way: 'cash', day: '2026-03-02' })
}
