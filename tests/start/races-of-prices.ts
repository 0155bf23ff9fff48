import { bookDay } from '../../src/bookings/booking.ts'
import type { TestApp } from '../helpers/app.ts'
import { acceptedRequest, bookedToday, quotedRequest } from '../helpers/bookings.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { mine, type Race, shownOn } from './race.ts'
import type { Sent } from './two-services.ts'

/** What may be done about a price: the homeowner sees one revision, and what the staff send is the next. */
const formsOf = async (
  app: TestApp,
  cookie: string,
  { id, number, path }: { id: number; number: string; path: string },
  seen: number,
) => {
  const revision = String(seen)
  const shown = await shownOn(app, cookie, `/queue/${number}/quote`)
  const link = app.db
    .selectFrom('link')
    .select('id')
    .where('purpose', '=', 'booking')
    .where('revoked_at', 'is', null)
    .where('quote_request_id', '=', id)
  const standing = String((await link.executeTakeFirstOrThrow()).id)
  return {
    accept: {
      path: `${path}/accept`,
      form: { revision, read: 'yes', day: '2026-03-05', typedName: 'Carol Reyes' },
    } as Sent,
    decline: { path: `${path}/not-this-time`, form: { revision, reason: 'price', words: '' } } as Sent,
    send: (laborHours: string): Sent => ({
      ...{ path: `/queue/${number}/quote`, cookie },
      form: { ...shown, laborHours, do: 'confirm' },
    }),
    withdraw: { path: `/queue/${number}/change/withdraw`, form: { revision }, cookie } as Sent,
    close: { path: `/days/jobs/${number}/close`, form: { version: '1' }, cookie } as Sent,
    newLink: { path: `/queue/${number}/booking-link`, form: { standing }, cookie } as Sent,
  }
}
const quoted = async (app: TestApp, cookie: string, email: string) =>
  formsOf(app, cookie, await quotedRequest(app, '0.25', mine(email)), 1)

/** A change to booked work that waits for its answer. */
const changed = async (app: TestApp, cookie: string, email: string, isToday = false) => {
  const job = isToday
    ? await bookedToday(app, '0.25', mine(email))
    : await acceptedRequest(app, '0.25', mine(email))
  if (!isToday) await bookDay(app.deps, job.id, '2026-03-31')
  await quoteRequest(app, job.number, { laborHours: '0.5' })
  return formsOf(app, cookie, job, 2)
}

const SENT = { stages: ['quoted'], history: ['quoted'], outbox: ['quote-ready'] }
const ACCEPTED = {
  ...{ stages: ['booked'], accepted: 1, booked: 1, history: ['accepted', 'day booked'] },
  outbox: ['day-booked', 'day-booked-staff'],
}
const DECLINED = { stages: ['not taken'], history: ['not taken'], outbox: ['not-taken-staff'] }
const CHANGE_ACCEPTED = {
  ...{ stages: ['booked'], accepted: 1, history: ['accepted'] },
  outbox: ['accepted-staff'],
}
const CHANGE_DECLINED = { stages: ['booked'], history: ['change declined'], outbox: ['not-taken-staff'] }
const WITHDRAWN = { stages: ['booked'], history: ['change withdrawn'], outbox: ['change-withdrawn'] }

/** Revisions of a price and changes to booked work, as one side answers and the other goes on. */
export const PRICE_RACES: Race[] = [
  {
    name: 'sending one revision and another',
    forms: async (app, cookie, email) => {
      const { send } = await quoted(app, cookie, email)
      return [send('0.5'), send('0.75')]
    },
    onlyOne: true,
    outcomes: [SENT],
  },
  {
    name: 'accepting a price while the next revision is sent',
    forms: async (app, cookie, email) => {
      const { accept, send } = await quoted(app, cookie, email)
      return [accept, send('0.5')]
    },
    // Whoever sends it after that is asked whether it is to change what was accepted.
    onlyOne: true,
    outcomes: [
      SENT,
      { ...ACCEPTED, history: ['accepted', 'day booked'], outbox: ['day-booked', 'day-booked-staff'] },
    ],
  },
  {
    name: 'declining a price while the next revision is sent',
    forms: async (app, cookie, email) => {
      const { decline, send } = await quoted(app, cookie, email)
      return [decline, send('0.5')]
    },
    onlyOne: true,
    outcomes: [SENT, DECLINED],
  },
  {
    name: 'accepting a price while its link is replaced',
    forms: async (app, cookie, email) => {
      const { accept, newLink } = await quoted(app, cookie, email)
      return [accept, newLink]
    },
    ends: true,
    outcomes: [
      { stages: ['quoted'], history: ['booking link made'] },
      { ...ACCEPTED, history: ['accepted', 'booking link made', 'day booked'] },
    ],
  },
  {
    name: 'accepting a change while it is withdrawn',
    forms: async (app, cookie, email) => {
      const { accept, withdraw } = await changed(app, cookie, email)
      return [accept, withdraw]
    },
    onlyOne: true,
    outcomes: [CHANGE_ACCEPTED, WITHDRAWN],
  },
  {
    name: 'accepting a change and declining it',
    forms: async (app, cookie, email) => {
      const { accept, decline } = await changed(app, cookie, email)
      return [accept, decline]
    },
    onlyOne: true,
    outcomes: [CHANGE_ACCEPTED, CHANGE_DECLINED],
  },
  {
    name: 'declining a change while it is withdrawn',
    forms: async (app, cookie, email) => {
      const { decline, withdraw } = await changed(app, cookie, email)
      return [decline, withdraw]
    },
    outcomes: [
      WITHDRAWN,
      {
        ...{ ...WITHDRAWN, history: ['change declined', 'change withdrawn'] },
        outbox: ['change-withdrawn', 'not-taken-staff'],
      },
    ],
  },
  {
    name: 'accepting a change while the next one is sent',
    forms: async (app, cookie, email) => {
      const { accept, send } = await changed(app, cookie, email)
      return [accept, send('0.75')]
    },
    outcomes: [
      { ...SENT, stages: ['booked'] },
      {
        ...{ ...CHANGE_ACCEPTED, history: ['accepted', 'quoted'] },
        outbox: ['accepted-staff', 'quote-ready'],
      },
    ],
  },
  {
    name: 'declining a change while the next one is sent',
    forms: async (app, cookie, email) => {
      const { decline, send } = await changed(app, cookie, email)
      return [decline, send('0.75')]
    },
    outcomes: [
      { ...SENT, stages: ['booked'] },
      {
        ...{ ...CHANGE_DECLINED, history: ['change declined', 'quoted'] },
        outbox: ['not-taken-staff', 'quote-ready'],
      },
    ],
  },
  {
    name: 'accepting a change while the job is closed',
    forms: async (app, cookie, email) => {
      const { accept, close } = await changed(app, cookie, email, true)
      return [accept, close]
    },
    outcomes: [
      { stages: ['done'], closings: 1, history: ['job closed'] },
      { ...CHANGE_ACCEPTED, stages: ['done'], closings: 1, history: ['accepted', 'job closed'] },
    ],
  },
]
