import { bookDay } from '../../src/bookings/booking.ts'
import { workOnce } from '../../src/bookings/messages.ts'
import { changeChoices, findChoices } from '../../src/outbox/choices.ts'
import type { HomeownerMessage } from '../../src/outbox/kinds.ts'
import { putInOutbox } from '../../src/outbox/outbox.ts'
import { quoteOnce } from '../../src/quotes/messages.ts'
import { mailHomeowner } from '../../src/requests/mail-homeowner.ts'
import { visitOnce } from '../../src/visits/messages.ts'
import { setVisit } from '../../src/visits/visit.ts'
import type { TestApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest } from '../helpers/bookings.ts'
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
