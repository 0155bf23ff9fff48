import { afterEach, beforeEach, expect, test } from 'vitest'
import { acceptAndBook } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { type Letter, writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import type { MessageKind } from '../../src/outbox/kinds.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { endBookingLink } from '../../src/quotes/booking-link.ts'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { markupFaults } from '../helpers/markup.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let ownerId: number

beforeEach(async () => {
  app = await testApp()
  await openBusiness(app)
  ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
})

afterEach(() => app.close())

// 27 ft × 12 ft × 3 in is 81 ft³, or 3 yd³; at 90, the middle of 80 and 100, that is 270.00.
const THREE_YARDS = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))

/** The newest message of a kind, written as things stand now. */
async function letterOf(kind: MessageKind): Promise<Letter | null> {
  const { id } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('kind', '=', kind)
    .orderBy('made_at', 'desc')
    .executeTakeFirstOrThrow()
  const letter = await writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, id))!)
  if (letter) expect(await markupFaults(letter.html)).toEqual([])
  return letter
}

const inTwoDays = () => app.deps.now().add({ hours: 48 })

test('a visit: when it is, in the time of the place, and where', async () => {
  const { id } = await sendRequest(app)
  await confirmAddress(app.deps, id)
  await setVisit(app.deps, ownerId, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  const letter = await letterOf('visit-set')
  // Chicago is six hours behind until March 8, 2026 (tz database).
  expect(letter?.subject.replaceAll(' ', ' ')).toBe('We’re coming to measure: Wed, Mar 4, 2:30 PM')
  expect(letter?.text).toContain('12 Fern Lane')
})

test('a visit that was called off meanwhile is written of no more', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, ownerId, id, inTwoDays())
  await callOffVisit(app.deps, ownerId, id)
  expect(await letterOf('visit-set')).toBeNull()
})

test('a visit whose time has come is written of no more', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, ownerId, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  app.setClock('2026-03-04T20:30:00Z')
  expect(await letterOf('visit-set')).not.toBeNull()
  app.setClock('2026-03-04T20:30:01Z')
  expect(await letterOf('visit-set')).toBeNull()
})

test('a quote: the price, until when it holds, and the booking link, which opens', async () => {
  const { number } = await sendRequest(app, { told: THREE_YARDS })
  const { bookingPath } = await quoteRequest(app, number)
  const letter = await letterOf('quote-ready')
  expect(letter?.subject).toBe(`Your firm price for request ${number}`)
  expect(letter?.text).toContain('Price: $270.00')
  // 30 days after March 2.
  expect(letter?.text).toContain('Good through: Wednesday, April 1, 2026')
  expect(letter?.text).toContain(`http://localhost:8080${bookingPath}\n`)
  expect((await app.browser().get(bookingPath)).status).toBe(200)
})

test('a second quote says that it takes the first one’s place', async () => {
  const { number } = await sendRequest(app)
  await quoteRequest(app, number)
  app.setClock('2026-03-03T15:00:00Z')
  await quoteRequest(app, number, { note: 'Less than before' })
  expect((await letterOf('quote-ready'))?.text).toContain('replaces the earlier one')
})

test('a quote whose link was ended meanwhile is written of no more', async () => {
  const { number, id } = await sendRequest(app)
  await quoteRequest(app, number)
  await endBookingLink(app.deps, ownerId, id)
  expect(await letterOf('quote-ready')).toBeNull()
})

test('a day booked: which, for the homeowner and for the owner', async () => {
  const { number, id } = await sendRequest(app, { told: THREE_YARDS })
  await quoteRequest(app, number)
  await acceptAndBook(app.deps, id, { revision: 1, typedName: 'Carol Reyes' }, '2026-03-05')
  const letter = await letterOf('day-booked')
  expect(letter?.subject).toBe('Booked: Thursday, March 5')
  expect(letter?.text).toContain('Work day: Thursday, March 5')
  const toOwner = await letterOf('day-booked-staff')
  expect(toOwner?.to.address).toBe('alice@fernbeds.example')
  expect(toOwner?.text).toContain('booked Thursday, March 5')
  expect(toOwner?.text).toContain(`http://localhost:8080/queue/${number}`)
})

test('what the owner hears names no homeowner: mailboxes are read by others too', async () => {
  const first = await sendRequest(app)
  await addNote(app.deps, first.id, 'The key is under the pot')
  await quoteRequest(app, first.number)
  await declineQuote(app.deps, first.id, { reason: 'price', words: 'Too dear' })
  app.setClock('2026-03-02T16:00:00Z')
  const second = await sendRequest(app)
  await callOff(app.deps, second.id, 'Moving house')
  const subjects = {
    'request-arrived': `New request ${second.number}`,
    'note-staff': `A note on ${first.number}`,
    'not-taken-staff': `Declined: ${first.number}`,
    'called-off-staff': `Canceled: ${second.number}`,
  } as const
  for (const [kind, subject] of Object.entries(subjects)) {
    const letter = await letterOf(kind as MessageKind)
    expect(letter?.subject).toBe(subject)
    expect(letter?.text).not.toMatch(/Carol|Fern Lane|0199|under the pot|Too dear|Moving/)
  }
})
