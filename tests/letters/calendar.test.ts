import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { acceptAndBook } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { writeLetter } from '../../src/letters/letter.ts'
import { smtpMailer } from '../../src/letters/smtp.ts'
import { messages } from '../../src/messages.ts'
import { mailedEntry } from '../../src/outbox/calendar.ts'
import type { MessageKind } from '../../src/outbox/kinds.ts'
import { findOutboxMessage, markSent } from '../../src/outbox/queries.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { readCalendar } from '../helpers/calendars.ts'
import { type MailServer, startMailServer } from '../helpers/mail-server.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let mailServer: MailServer

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  mailServer = await startMailServer()
})
beforeEach(() => {
  mailServer.letters.length = 0
  app.setClock('2026-03-02T15:00:00Z')
})
afterAll(async () => {
  await mailServer.stop()
  await app.close()
})

/** The message of a kind that waits, which counts as sent from then on; null when it is written of no more. */
async function letterOf(requestId: number, kind: MessageKind) {
  const { id } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', requestId)
    .where('kind', '=', kind)
    .where('sent_at', 'is', null)
    .where('last_fault', 'is', null)
    .executeTakeFirstOrThrow()
  const row = (await findOutboxMessage(app.db, id))!
  const letter = await writeLetter({ ...app.deps, messages }, row)
  if (letter) await markSent(app.db, id, app.deps.now())
  return letter
}

async function entryOf(requestId: number, kind: MessageKind) {
  const letter = (await letterOf(requestId, kind))!
  const { method, content } = mailedEntry(letter.entry!, letter, app.deps.now())
  const read = readCalendar(content)
  expect(read.method).toBe(method)
  expect(read.entries).toHaveLength(1)
  return { method, ...read.entries[0]! }
}

const at = (iso: string) => Temporal.Instant.from(iso)

test('a visit arranged, moved and canceled is one entry that is updated and taken out', async () => {
  const { id, number } = await sendRequest(app)
  await confirmAddress(app.deps, id)
  await setVisit(app.deps, 1, id, at('2026-03-07T20:30:00Z'))
  const set = await entryOf(id, 'visit-set')
  expect(set).toEqual({
    method: 'REQUEST',
    uid: `visit-${number}@localhost`,
    sequence: 0,
    summary: `Fern Beds: measuring visit, request ${number}`,
    location: '12 Fern Lane, 43004',
    start: '2026-03-07T20:30:00Z',
    end: '2026-03-07T21:30:00Z',
    status: 'CONFIRMED',
    attendees: ['MAILTO:carol@example.com'],
    organizer: 'mailto:hello@fernbeds.example',
  })
  // The day after clocks have changed: half past three there is an hour earlier in UTC.
  await setVisit(app.deps, 1, id, at('2026-03-09T20:30:00Z'))
  const moved = await entryOf(id, 'visit-set')
  expect(moved).toMatchObject({ method: 'REQUEST', uid: set.uid, start: '2026-03-09T20:30:00Z' })
  await callOffVisit(app.deps, 1, id)
  const off = await entryOf(id, 'visit-off')
  expect(off).toMatchObject({ method: 'CANCEL', uid: set.uid, status: 'CANCELLED', start: moved.start })
  await setVisit(app.deps, 1, id, at('2026-03-10T20:30:00Z'))
  const again = await entryOf(id, 'visit-set')
  expect(again).toMatchObject({ method: 'REQUEST', uid: set.uid, status: 'CONFIRMED' })
  const sequences = [set, moved, off, again].map(({ sequence }) => sequence)
  expect(sequences).toEqual([...new Set(sequences)].sort((a, b) => a - b))
})

test('a visit that nobody was told of is called off without a word', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, 1, id, at('2026-03-09T20:30:00Z'))
  await callOffVisit(app.deps, 1, id)
  expect(await letterOf(id, 'visit-off')).toBeNull()
  const rows = await app.db
    .selectFrom('outbox')
    .select('last_fault')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'visit-set')
    .execute()
  expect(rows).toEqual([{ last_fault: 'dropped: visit changed' }])
})

test('a second time says that it is a new one, once the first was told', async () => {
  const { id } = await sendRequest(app, { language: 'es' })
  await setVisit(app.deps, 1, id, at('2026-03-09T20:30:00Z'))
  expect((await letterOf(id, 'visit-set'))?.subject).toMatch(/^Vamos a medir: /)
  await setVisit(app.deps, 1, id, at('2026-03-10T20:30:00Z'))
  expect((await letterOf(id, 'visit-set'))?.subject).toMatch(/^Nueva hora para medir: /)
})

test('the work is whole days, and goes out of the calendar when the homeowner cancels', async () => {
  const { id, number } = await sendRequest(app)
  await confirmAddress(app.deps, id)
  // 20 hours at 8 a day take Thursday, Friday and Monday.
  await quoteRequest(app, number, { laborHours: '20' })
  await acceptAndBook(app.deps, id, { revision: 1, typedName: 'Carol Reyes' }, '2026-03-05')
  const booked = await entryOf(id, 'day-booked')
  expect(booked).toMatchObject({
    method: 'REQUEST',
    uid: `work-${number}@localhost`,
    start: '2026-03-05',
    end: '2026-03-10',
    status: 'CONFIRMED',
  })
  await callOff(app.deps, id, '')
  const off = await entryOf(id, 'canceled')
  expect(off).toMatchObject({ method: 'CANCEL', uid: booked.uid, status: 'CANCELLED', start: '2026-03-05' })
  expect(off.sequence).toBeGreaterThan(booked.sequence)
})

test('to an address that nobody confirmed an entry holds nothing that was typed', async () => {
  const { id } = await sendRequest(app, { name: 'Xq-name', street: 'Xq-street 1', postcode: '97531' })
  await setVisit(app.deps, 1, id, at('2026-03-09T20:30:00Z'))
  const letter = (await letterOf(id, 'visit-set'))!
  const { content } = mailedEntry(letter.entry!, letter, app.deps.now())
  expect(content.replaceAll('\r\n ', '')).not.toMatch(/Xq-|97531|\/r\//)
})

test('by mail it arrives as what calendars take in, whatever a name holds', async () => {
  const name = 'مريم "🌿"; Carol\r\nATTENDEE:mailto:evil@example.com, \\n é'
  const { id } = await sendRequest(app, { name, street: '1 A St\r\nBEGIN:VALARM; b, c\\' })
  await confirmAddress(app.deps, id)
  await setVisit(app.deps, 1, id, at('2026-03-09T20:30:00Z'))
  const mailer = smtpMailer(mailServer.url)
  await mailer.send((await letterOf(id, 'visit-set'))!, '<1@fernbeds.example>', '2026-03-02T15:00:00Z')
  await mailer.close()
  const [arrived] = mailServer.letters
  const parts = arrived!.attachments.filter(({ contentType }) => /calendar|ics/.test(contentType))
  expect(parts.map(({ contentType }) => contentType)).toContain('text/calendar')
  for (const { content } of parts) {
    const { method, entries } = readCalendar(content.toString('utf8'))
    expect(method).toBe('REQUEST')
    expect(entries[0]).toMatchObject({
      location: '1 A St\nBEGIN:VALARM; b, c\\, 43004',
      attendees: ['MAILTO:carol@example.com'],
      start: '2026-03-09T20:30:00Z',
    })
  }
  expect(arrived!.text).toContain('Mon, Mar 9')
})
