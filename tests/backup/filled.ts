import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { beginAuthenticator } from '../../src/account/authenticator.ts'
import { changeRole } from '../../src/account/change-role.ts'
import { invite } from '../../src/account/invitations.ts'
import { mailLink } from '../../src/account/mailed-links.ts'
import { newChallenge, useChallenge } from '../../src/account/passkey-challenge.ts'
import { offerPasswordReset } from '../../src/account/password-reset.ts'
import { makeRecoveryCodes } from '../../src/account/recovery-codes.ts'
import { findTables } from '../../src/backup/tables.ts'
import { makeBill } from '../../src/billing/make-bill.ts'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { moveForRain } from '../../src/bookings/rain.ts'
import { noteSeen } from '../../src/bookings/seen.ts'
import { closeWith } from '../../src/closing/close-with.ts'
import { noteTrouble } from '../../src/closing/troubles.ts'
import type { Store } from '../../src/db/open.ts'
import { decideToDig, enterTicket } from '../../src/job-sheets/dig-ticket.ts'
import { changeSheetSettings } from '../../src/job-sheets/settings.ts'
import { requireStoresKey } from '../../src/key-check.ts'
import { setGateway } from '../../src/letters/change-gateway.ts'
import { reserve } from '../../src/letters/mail-limits.ts'
import { takeReply } from '../../src/letters/text-replies.ts'
import { keepWords } from '../../src/letters/words-form.ts'
import { keepFile, takeIn } from '../../src/moving-in/moving-in.ts'
import { sendOffer } from '../../src/offers/offer.ts'
import { changeChoices, findChoices } from '../../src/outbox/choices.ts'
import { settleDeposit } from '../../src/payments/settle.ts'
import { decideCustomers, takeBack } from '../../src/people/same.ts'
import { keepOrderNumber } from '../../src/places/firms.ts'
import { keepJobCertificate } from '../../src/places/job-certificate.ts'
import { makeFeed } from '../../src/queue/feed.ts'
import { noteSent } from '../../src/quotes/note-sent.ts'
import { findAcceptedQuote } from '../../src/quotes/queries.ts'
import { keepPhoto } from '../../src/rates/photos/photos.ts'
import { StoredBudgets } from '../../src/requests/maybe-junk/budgets.ts'
import { offerTimes } from '../../src/visits/pick-time.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { makeFirm } from '../access/people-pages.ts'
import type { TestApp } from '../helpers/app.ts'
import { markDone, returnedRequest } from '../helpers/bills.ts'
import {
  acceptedRequest,
  bookedToday,
  depositRequest,
  offeredRequest,
  quotedRequest,
} from '../helpers/bookings.ts'
import { crewWithDaysOff } from '../helpers/crew.ts'
import { loadPage, someMiles } from '../helpers/loads.ts'
import { heldRequest } from '../helpers/maybe-junk.ts'
import { offerMade } from '../helpers/offers.ts'
import { bags, move } from '../helpers/on-hand.ts'
import { orderedAsItComes } from '../helpers/orders.ts'
import { passkeyOf } from '../helpers/passkeys.ts'
import { ALICE, helperBrowser, openBusiness } from '../helpers/people.ts'
import { givePhoto, holdPast, sendUnseen } from '../helpers/photos.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, sendWithStop, told } from '../helpers/requests.ts'
import { phonePhoto } from '../photos/pictures.ts'
import { drafting } from '../rates/draft/drafting.ts'

/** What is hard to write down and read again: ends of lines of every kind, quotes, backslashes, odd letters. */
const HARD_TEXT = 'Two\nlines\r\nand\u2028more: "quoted" \\n \\ \t {a,b} [“ñ”] 🌱'

/** Has something happen that leaves rows in every table; what a new table is for belongs in here too. */
export async function fill(app: TestApp) {
  app.setClock('2026-03-02T15:00:00.123456Z')
  const { owner } = await openBusiness(app)
  await requireStoresKey(app.db, app.deps.secretKey)
  await helperBrowser(app)
  await app.browser().post('/sign-in').type('form').send({ email: ALICE.email, password: 'a wrong guess' })
  await offerPasswordReset(app.db, app.deps.now())
  await mailLink(app.deps, 'sign-in-link', 1)
  await beginAuthenticator(app.deps, 1)
  await app.db.transaction().execute(trx => makeRecoveryCodes(trx, app.deps.secretKey, 1))
  await app.db.insertInto('passkey').values(passkeyOf(2, app.deps.now())).execute()
  const challenge = Buffer.from(newChallenge(app.deps, 1, 'prove')).toString('base64url')
  await app.db.transaction().execute(trx => useChallenge(trx, app.deps, challenge))
  await invite(app.deps, 1, { name: 'Ida Fern', email: '', role: 'office', language: 'es' })
  await changeRole(app.deps, 1, 2, 'office')
  await new StoredBudgets(app.db, app.deps.secretKey).add('192.0.2.7', null, app.deps.now().epochMilliseconds)
  await reserve(app.db, app.deps.secretKey, { address: ALICE.email, unconfirmed: true }, app.deps.now())
  const photo = await keepPhoto(app.deps, 1, { jpeg: await phonePhoto(), width: 600, height: 800 })
  const draft = drafting(app, owner)
  await draft.saveSection('prices', { minimumCharge: '170' })
  await draft.putInForce('2026-05-01')
  await draft.post('/rates/versions/2/call-off')
  await draft.open()
  await app.db
    .insertInto('figure_looked_at')
    .values({ key: 'invented', figure: HARD_TEXT, at: app.deps.now().toString(), by: 1 })
    .execute()
  const at = app.deps.now().toString()
  await app.db
    .insertInto('store_backup')
    .values({ tried_at: at, made_at: at, bytes: 1, fault: HARD_TEXT })
    .execute()
  const asked = await sendRequest(app, { note: HARD_TEXT, language: 'es' })
  await app.db
    .insertInto('access_log')
    .values({ at, account_id: 1, verb: 'exported', customer_id: 1, requests: [HARD_TEXT] })
    .execute()
  await givePhoto(app, asked.id, HARD_TEXT)
  await holdPast(app)
  await heldRequest(app, { note: HARD_TEXT, photos: [{ token: await holdPast(app), words: HARD_TEXT }] })
  await sendUnseen(app)
  await setVisit(app.deps, 1, asked.id, Temporal.Instant.from('2026-03-04T15:30:00Z'))
  const visited = await sendRequest(app)
  await setVisit(app.deps, 1, visited.id, app.deps.now())
  await keepMeasurements(app.deps, 1, visited.id, told(bedTold({ sizes: { length: "12'6", width: '⅓ yd' } })))
  const quoted = await quotedRequest(app, '3', { name: 'O’Neill "Bed" \\ Sons' })
  await noteSent(app.deps, 1, quoted.id, 1)
  await noteSeen(app.deps, quoted.id)
  const booked = await acceptedRequest(app, '12.5')
  await bookDay(app.deps, booked.id, '2026-03-03')
  await quoteRequest(app, booked.number, { laborHours: '12' })
  await declineQuote(app.deps, booked.id, { reason: 'later', words: HARD_TEXT })
  await moveForRain(app.deps, 1, { key: randomUUID(), day: '2026-03-16', choices: [] })
  await offerTimes(app.deps, 1, (await sendRequest(app)).id, [app.deps.now().add({ hours: 72 })])
  await offeredRequest(app)
  const paid = await depositRequest(app)
  await callOff(app.deps, paid.id, '')
  await settleDeposit(app.deps, 1, paid.id, { back: '5.00', day: '2026-03-02', way: 'check' })
  await setGateway(app.deps, 'https://texts.example.com/send')
  await takeReply(app.deps, 'reply', { from: '(555) 010-0199', text: HARD_TEXT })
  await makeFeed(app.deps, 1)
  await sendOffer(app.deps, await offerMade(app, 1))
  await keepWords(app.db, [{ key: 'mail.visit', language: 'es', words: HARD_TEXT }])
  await changeChoices(app.db, await findChoices(app.db))
  await joinSome(app)
  await moveIn(app)
  await makeFirm(app, 1, booked.id)
  await app.db.transaction().execute(trx => keepOrderNumber(trx, booked.id, HARD_TEXT, app.deps.now()))
  await atStops(app)
  await returnedRequest(app)
  await stopped(app)
  await crewWithDaysOff(app)
  await move(app, bags('7', { note: HARD_TEXT }))
  await loadPage(app, 'sold out')
  await someMiles(app, '2026-03-02')
  await orderedAsItComes(app, '2026-04-21')
  return { photo, ownPath: asked.ownPath, bookingPath: quoted.path, bookedPath: booked.path }
}

/** A price by stop, with a certificate for that job, and its bill. */
async function atStops(app: TestApp): Promise<void> {
  const { id, number } = await sendWithStop(app)
  await quoteRequest(app, number, { laborHours: '3' })
  const certificate = { number: HARD_TEXT, until: '2027-03-31', file_id: null }
  const saved = { at: app.deps.now(), by: 1 }
  await app.db.transaction().execute(trx => keepJobCertificate(trx, id, certificate, saved))
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes' })
  await markDone(app, id)
  await makeBill(app.deps, 1, id, { before: 0, added: [], total: null })
}

/** A job that was stopped: half of its lines is done; with all that can be told of it. */
async function stopped({ deps, ...app }: TestApp): Promise<void> {
  const { id } = await bookedToday({ deps, ...app })
  const quote = (await findAcceptedQuote(app.db, id))!
  const pack = { of: 'finish', slug: 'stone', pack: 'bag', units: '2' } as const
  const today = '2026-03-02'
  await closeWith(deps, 1, id, 1, {
    ...{ outcome: 'stopped', firstDay: today, lastDay: today, trips: 1, note: HARD_TEXT, rest: null },
    used: [{ ...pack, planned: '3' }],
    left: [{ ...pack, goes: 'customer' }],
    hours: [{ account_id: null, name: HARD_TEXT, task: 'yard', minutes: 20 }],
    fees: [{ amount: '12.50', words: HARD_TEXT, typed_by: 1 }],
    shares: [{ position: quote.lines[0]!.position, stop: null, share: '0.5' }],
  })
  const small = { jpeg: Buffer.from('a photo'), width: 4, height: 3 }
  const photo = { made: { picture: small, small }, words: '', digest: 'of a photo' }
  await noteTrouble(deps, 1, id, { key: randomUUID(), kind: 'damage', words: HARD_TEXT, day: null, photo })
  await enterTicket(deps, 1, id, 0, {
    ...{ number: HARD_TEXT, requested: today, from: today, until: today },
    answers: [{ utility: HARD_TEXT, answer: HARD_TEXT }],
  })
  await decideToDig(deps, 1, id, HARD_TEXT)
  const settings = { barrow: '5.5', digWaitDays: 2, digValidDays: 14, digSource: HARD_TEXT }
  await changeSheetSettings(deps, 1, settings)
  const done = { done_at: deps.now().toString(), done_by: 1 }
  await app.db
    .insertInto('job_stop_done')
    .values({ quote_request_id: id, stop: 0, ...done })
    .execute()
}

/** All that were sent are Carol's: some are joined, one is kept apart, one was taken apart again. */
async function joinSome({ deps }: TestApp): Promise<void> {
  await decideCustomers(deps, { one: 2, other: 1, accountId: 1 }, 'same')
  await decideCustomers(deps, { one: 3, other: 2, accountId: 1 }, 'apart')
  await decideCustomers(deps, { one: 4, other: 1, accountId: 1 }, 'same')
  await takeBack(deps, 'customer', 3, 1)
}

/** One file is taken in, one waits. */
async function moveIn({ deps }: TestApp): Promise<void> {
  const file = { name: 'people.csv', text: 'Name,Address,Beds\n"Ida ""Moss""",9 Elm St,20 by 5\n' }
  for (const text of [file.text, `${file.text}Uma,,huge\n`]) {
    const kept = await keepFile(deps, 1, { ...file, text })
    if (kept.ok) await takeIn(deps, 1, kept.id)
  }
}

/** Every row of every table as PostgreSQL writes rows, which is another form than a backup's; sorted. */
export async function everyRow({ db }: Pick<Store, 'db'>): Promise<Record<string, string[]>> {
  const all: Record<string, string[]> = {}
  for (const table of await findTables(db)) {
    const { rows } = await sql<{ row: string }>`
      select one::text as row from ${sql.table(table)} as one order by 1`.execute(db)
    all[table] = rows.map(({ row }) => row)
  }
  return all
}
