import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { deliver } from '../../src/letters/deliver.ts'
import { writeReminders } from '../../src/letters/reminders.ts'
import type { Mailer } from '../../src/letters/smtp.ts'
import { messages } from '../../src/messages.ts'
import { changeChoices, findChoices } from '../../src/outbox/choices.ts'
import type { MessageKind } from '../../src/outbox/kinds.ts'
import { noteSent } from '../../src/quotes/note-sent.ts'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest } from '../helpers/bookings.ts'
import { ALICE, openBusiness, signedIn } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

const OWN_ZONE = process.env.TZ
let app: TestApp
let start: string

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  start = app.deps.now().toString()
})
beforeEach(async () => {
  app.setClock(start)
  await app.db.deleteFrom('message_choice').execute()
  await app.db.deleteFrom('outbox').execute()
  await app.db.updateTable('visit').set({ done_at: start }).execute()
  await app.db.updateTable('quote_request').set({ stage: 'paid' }).execute()
})
afterEach(() => {
  if (OWN_ZONE === undefined) delete process.env.TZ
  else process.env.TZ = OWN_ZONE
})
afterAll(() => app.close())

async function rowsOf(kind: MessageKind) {
  return app.db.selectFrom('outbox').selectAll().where('kind', '=', kind).execute()
}

/** Has the clock tell, and gives how many messages of the kind there are. */
async function at(iso: string, kind: MessageKind): Promise<number> {
  app.setClock(iso)
  await writeReminders(app.deps)
  return (await rowsOf(kind)).length
}

async function switchOn(name: string): Promise<void> {
  const choices = await findChoices(app.db)
  await changeChoices(app.db, { ...choices, [name]: { ...choices[name]!, choice: 'on' } })
}

// Chicago: UTC-6 until March 8, 2026, 2 AM, and from November 1 on; UTC-5 between (tz database).
test.each([
  // The visit, the last moment at which its reminder is not yet due, and ten in the morning of the day before.
  ['2026-03-04T20:30:00Z', '2026-03-03T15:59:59Z', '2026-03-03T16:00:00Z'],
  ['2026-03-08T19:00:00Z', '2026-03-07T15:59:59Z', '2026-03-07T16:00:00Z'],
  ['2026-03-09T19:00:00Z', '2026-03-08T14:59:59Z', '2026-03-08T15:00:00Z'],
  ['2026-11-01T19:00:00Z', '2026-10-31T14:59:59Z', '2026-10-31T15:00:00Z'],
  ['2026-11-02T19:00:00Z', '2026-11-01T15:59:59Z', '2026-11-01T16:00:00Z'],
])(
  'of a visit at %s, at ten on the wall the day before, in whatever zone this machine is',
  async (visit, before, due) => {
    const { id } = await sendRequest(app)
    await setVisit(app.deps, 1, id, Temporal.Instant.from(visit))
    for (const zone of ['UTC', 'America/New_York', 'Pacific/Auckland']) {
      process.env.TZ = zone
      await app.db.deleteFrom('outbox').where('kind', '=', 'visit-tomorrow').execute()
      expect(await at(before, 'visit-tomorrow')).toBe(0)
      expect(await at(due, 'visit-tomorrow')).toBe(1)
    }
  },
)

test.each([
  // Sunday, March 8, is when the clocks go forward; both days before are still UTC-6.
  ['2026-03-06', '2026-03-05T15:59:59Z', '2026-03-05T16:00:00Z'],
  ['2026-03-09', '2026-03-08T14:59:59Z', '2026-03-08T15:00:00Z'],
])('of work on %s the same', async (day, before, due) => {
  const { id } = await acceptedRequest(app)
  await bookDay(app.deps, id, day)
  expect(await at(before, 'work-tomorrow')).toBe(0)
  expect(await at(due, 'work-tomorrow')).toBe(1)
})

test('two at once write each once, and a second time nothing', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  app.setClock('2026-03-03T17:00:00Z')
  await Promise.all([writeReminders(app.deps), writeReminders(app.deps)])
  await writeReminders(app.deps)
  expect(await rowsOf('visit-tomorrow')).toHaveLength(1)
})

test('what is arranged after its reminder was due needs none', async () => {
  const { id } = await sendRequest(app)
  app.setClock('2026-03-03T16:00:00Z')
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  expect(await at('2026-03-03T18:00:00Z', 'visit-tomorrow')).toBe(0)
})

test('after it was down past the evening before, the reminder is dropped and says so', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  // Eight in the evening there.
  await at('2026-03-04T02:00:00Z', 'visit-tomorrow')
  expect(await rowsOf('visit-tomorrow')).toMatchObject([{ last_fault: 'dropped: too late', sent_at: null }])
  const { id: another } = await sendRequest(app)
  await setVisit(app.deps, 1, another, Temporal.Instant.from('2026-03-05T20:30:00Z'))
  expect(await at('2026-03-05T21:00:00Z', 'visit-tomorrow')).toBe(1)
})

test('none of what was called off; of what was moved, at its new time', async () => {
  const off = await sendRequest(app)
  await setVisit(app.deps, 1, off.id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  await callOffVisit(app.deps, 1, off.id)
  const moved = await sendRequest(app)
  await setVisit(app.deps, 1, moved.id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  await setVisit(app.deps, 1, moved.id, Temporal.Instant.from('2026-03-05T20:30:00Z'))
  const work = await acceptedRequest(app)
  await bookDay(app.deps, work.id, '2026-03-04')
  await callOff(app.deps, work.id, '')
  expect(await at('2026-03-03T17:00:00Z', 'visit-tomorrow')).toBe(0)
  expect(await rowsOf('work-tomorrow')).toEqual([])
  expect(await at('2026-03-04T17:00:00Z', 'visit-tomorrow')).toBe(1)
})

test('one that waits is dropped by a move, and the outbox says by what', async () => {
  const { id, number } = await sendRequest(app)
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  await at('2026-03-03T17:00:00Z', 'visit-tomorrow')
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-06T20:30:00Z'))
  expect(await rowsOf('visit-tomorrow')).toMatchObject([{ last_fault: 'dropped: visit changed' }])
  const { text } = await (await signedIn(app, ALICE)).get(`/outbox?request=${number}`)
  expect(text).toContain('Not sent, because the visit was moved or canceled.')
})

async function priced() {
  const { id, number } = await quotedRequest(app)
  await noteSent(app.deps, 1, id, 1)
  return { id, number }
}

test('a price is asked about after four days without an answer, if that is switched on', async () => {
  await priced()
  expect(await at('2026-03-06T18:00:00Z', 'follow-up')).toBe(0)
  await switchOn('follow-up')
  expect(await at('2026-03-06T15:59:59Z', 'follow-up')).toBe(0)
  expect(await at('2026-03-06T16:00:00Z', 'follow-up')).toBe(1)
  expect(await at('2026-03-07T18:00:00Z', 'follow-up')).toBe(1)
})

test('it isn’t where nobody was told the price, or there is news, or it was answered, or more than three days late', async () => {
  await switchOn('follow-up')
  await quotedRequest(app)
  const noted = await priced()
  await addNote(app.deps, noted.id, 'We are away until Friday')
  const accepted = await priced()
  await acceptQuote(app.deps, accepted.id, { revision: 1, typedName: 'Carol Reyes' })
  expect(await at('2026-03-06T18:00:00Z', 'follow-up')).toBe(0)
  app.setClock(start)
  await priced()
  expect(await at('2026-03-10T18:00:00Z', 'follow-up')).toBe(0)
})

test('it is told three days before it expires, once, and not asked about besides', async () => {
  await switchOn('follow-up')
  await switchOn('expiring')
  const { id, number } = await priced()
  // Good for 30 days, through April 1; on the wall it is UTC-5 by then.
  expect(await at('2026-03-28T18:00:00Z', 'expiring')).toBe(0)
  expect(await at('2026-03-29T15:00:00Z', 'expiring')).toBe(1)
  expect(await at('2026-03-30T15:00:00Z', 'expiring')).toBe(1)
  await quoteRequest(app, number, { note: 'Less' })
  expect(await rowsOf('expiring')).toMatchObject([{ last_fault: 'dropped: price replaced' }])
  await acceptQuote(app.deps, id, { revision: 2, typedName: 'Carol Reyes' })
  const faults = (await rowsOf('quote-ready')).map(row => row.last_fault)
  expect(faults.sort()).toEqual(['dropped: accepted', 'dropped: price replaced'])
})

const sent: string[] = []
const mailer: Mailer = {
  send: async ({ subject }) => void sent.push(subject),
  close: () => {},
}

test('at night what the clock wrote waits for the morning', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  await at('2026-03-03T17:00:00Z', 'visit-tomorrow')
  const [reminder] = await rowsOf('visit-tomorrow')
  const deps = { ...app.deps, messages }
  sent.length = 0
  app.setClock('2026-03-04T03:00:00Z')
  expect(await deliver(deps, mailer, reminder!.id)).toBe('again')
  expect(await rowsOf('visit-tomorrow')).toMatchObject([{ last_fault: 'quiet hours', attempts: 0 }])
  app.setClock('2026-03-04T14:00:00Z')
  expect(await deliver(deps, mailer, reminder!.id)).toBe('done')
  expect(sent.map(one => one.replaceAll('\u202f', ' '))).toEqual([
    'Reminder: we’re coming to measure Wed, Mar 4, 2:30 PM',
  ])
})

test('a message that is switched off isn’t written, and still takes the place of what it overtakes', async () => {
  const choices = await findChoices(app.db)
  await changeChoices(app.db, { ...choices, canceled: { choice: 'off', days: null } })
  const { id } = await sendRequest(app)
  await callOff(app.deps, id, '')
  expect(await rowsOf('canceled')).toEqual([])
  expect(await rowsOf('request-received')).toMatchObject([{ last_fault: 'dropped: canceled' }])
})
