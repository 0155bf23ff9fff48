import { randomUUID } from 'node:crypto'
import { type Kysely, sql } from 'kysely'
import type { Database } from '../../src/db/schema.ts'
import { signTime } from '../../src/junk/form-time.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from '../helpers/app.ts'
import { billedRequest, doneRequest } from '../helpers/bills.ts'
import { bookedToday, quotedRequest } from '../helpers/bookings.ts'
import { askedHeld } from '../helpers/maybe-junk.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { sendRequest } from '../helpers/requests.ts'
import type { Sent } from './two-services.ts'

/** What there is of everybody with one mail address. */
export interface Picture {
  stages: string[]
  /** As maybe junk, which a process does that got many; those are kept as well. */
  held: number
  accepted: number
  booked: number
  closings: number
  /** Kind, total, and what the lines come to. */
  bills: string[]
  payments: string[]
  history: string[]
  outbox: string[]
}

/** Forms that get in each other's way, each of which is sent to every service at once, twice. */
export interface Race {
  name: string
  /** Makes what they are about, of somebody with this mail address, and gives them. */
  forms(app: TestApp, cookie: string, email: string): Promise<Sent[]>
  /** What may have come of it, as the rows that there are more of. */
  outcomes: Outcome[]
}

export type Outcome = { stages: string[] } & Partial<Omit<Picture, 'stages'>>

const TODAY = '2026-03-02'
const MORE = { 'added.0.description': 'A gate mended', 'added.0.amount': '25' }
/** As whoever makes it knows it: a number of its own, and no phone that others have too. */
const mine = (email: string) => ({ email, phone: '', street: `${email} Lane`, submissionKey: randomUUID() })

const acceptance = async (app: TestApp, email: string) => {
  const { id, path } = await quotedRequest(app, '0.25', mine(email))
  const accept = (day: string, typedName: string): Sent => ({
    path: `${path}/accept`,
    form: { revision: '1', read: 'yes', day, typedName },
  })
  return { id, path, accept }
}
const ACCEPTED = { stages: ['booked'], accepted: 1, booked: 1, history: ['accepted', 'day booked'] }
const BOOKED_MAILS = { outbox: ['day-booked', 'day-booked-staff'] }

const closing = async (app: TestApp, cookie: string, email: string) => {
  const { number } = await bookedToday(app, '0.25', mine(email))
  const asPlanned = { path: `/days/jobs/${number}/close`, form: { version: '1' }, cookie }
  const days = { version: '1', outcome: 'done', firstDay: TODAY, lastDay: TODAY }
  const told = (trips: string) => ({
    path: `/days/jobs/${number}/went`,
    form: { ...days, trips },
    cookie,
  })
  return { asPlanned, told }
}
const CLOSED = { stages: ['done'], closings: 1 }

const billing = async (app: TestApp, cookie: string, email: string) => {
  const { number } = await doneRequest(app, mine(email))
  return (form: object): Sent => ({
    ...{ path: `/queue/${number}/bill`, cookie },
    form: { before: '0', do: 'make', ...form },
  })
}
// The minimum charge of 150.00 is what a small job comes to.
const BILL = 'bill 150.00 150.00'
const MEMO = 'credit memo -150.00 -150.00'

const billed = async (app: TestApp, cookie: string, email: string) => {
  const { number, bill } = await billedRequest(app, mine(email))
  const pay = (paid: string, paidWay: string): Sent => ({
    ...{ path: `/queue/${number}/payment`, cookie },
    form: { nth: '1', paidDay: TODAY, paidWay, tip: '', paid },
  })
  const credit = (creditReason: string): Sent => ({
    ...{ path: `/bills/${bill}/credit`, cookie },
    form: { creditReason },
  })
  return { pay, credit }
}
const PAID = {
  stages: ['paid'],
  payments: ['payment 150.00'],
  history: ['payment received'],
  outbox: ['payment-received'],
}
const CREDITED = {
  stages: ['done'],
  bills: [MEMO],
  history: ['bill credited'],
  outbox: ['bill-credited'],
}

const sending = (app: TestApp, email: string, submissionKey: string): Sent => {
  const begun = signTime(app.deps.secretKey, submissionKey, app.deps.now().subtract({ minutes: 5 }))
  const who = { ...CAROL, name: `Carol ${email}`, phone: '', email, note: `To ${email}` }
  return { path: '/requests', form: { ...BEDS, ...who, submissionKey, begun } }
}
const SENT = { stages: ['new'], history: ['sent'], outbox: ['request-arrived', 'request-received'] }
const HELD = { stages: [], held: 1 }

export const RACES: Race[] = [
  {
    name: 'taking a request in, the same form',
    forms: async (app, _, email) => [sending(app, email, randomUUID())],
    outcomes: [SENT, HELD],
  },
  {
    name: 'taking a request in, the same form under two keys',
    forms: async (app, _, email) => [sending(app, email, randomUUID()), sending(app, email, randomUUID())],
    outcomes: [
      {
        stages: ['new', 'new'],
        history: ['sent', 'sent'],
        outbox: ['request-arrived', 'request-arrived', 'request-received', 'request-received'],
      },
      { ...SENT, held: 1 },
      { ...HELD, held: 2 },
    ],
  },
  {
    name: 'saying that a mail address is one’s own',
    forms: async (app, _, email) => {
      const { id } = await sendRequest(app, mine(email))
      return [{ path: (await findLinkPath(app.db, app.deps.secretKey, 'email address', id))!, form: {} }]
    },
    outcomes: [{ stages: ['new'], history: ['address confirmed'], outbox: ['receipt'] }],
  },
  {
    name: 'taking in what was held, by its sender and by the staff',
    forms: async (app, cookie, email) => {
      const path = await askedHeld(app)
      const { number } = await app.db
        .updateTable('maybe_junk')
        .set({ sending: sql`jsonb_set(sending, '{email}', to_jsonb(${email}::text))` as never })
        .where('asked_hash', 'is not', null)
        .returning('number')
        .executeTakeFirstOrThrow()
      return [
        { path, form: {} },
        { path: `/queue/maybe-junk/${number}/real`, form: {}, cookie },
      ]
    },
    // Whoever comes second by the link has confirmed the address all the same.
    outcomes: [
      {
        stages: ['new'],
        history: ['address confirmed', 'sent'],
        outbox: ['receipt', 'request-arrived', 'request-received'],
      },
      {
        stages: ['new'],
        history: ['address confirmed', 'marked as real', 'sent'],
        outbox: ['receipt', 'request-received'],
      },
    ],
  },
  {
    name: 'joining two customers, from either side',
    forms: async (app, cookie, email) => {
      const ids: number[] = []
      for (const street of ['1 Fern Lane', '2 Moss Road']) {
        const { id } = await sendRequest(app, { ...mine(email), street: `${street} ${email}` })
        const request = app.db.selectFrom('quote_request').select('customer_id').where('id', '=', id)
        ids.push((await request.executeTakeFirstOrThrow()).customer_id)
      }
      const join = (one: number, other: number): Sent => ({
        ...{ path: `/customers/${one}/same`, cookie },
        form: { other: String(other), decision: 'same' },
      })
      return [join(ids[0]!, ids[1]!), join(ids[1]!, ids[0]!)]
    },
    outcomes: [{ stages: ['new', 'new'], history: ['customer joined with', 'customer joined with'] }],
  },
  {
    name: 'accepting, the same form',
    forms: async (app, _, email) => [(await acceptance(app, email)).accept('2026-03-05', 'Carol Reyes')],
    outcomes: [{ ...ACCEPTED, ...BOOKED_MAILS }],
  },
  {
    name: 'accepting under two names for two days',
    forms: async (app, _, email) => {
      const { accept } = await acceptance(app, email)
      return [accept('2026-03-05', 'Carol Reyes'), accept('2026-03-06', 'Dan Reyes')]
    },
    outcomes: [{ ...ACCEPTED, ...BOOKED_MAILS }],
  },
  {
    name: 'accepting and declining',
    forms: async (app, _, email) => {
      const { path, accept } = await acceptance(app, email)
      const decline = { path: `${path}/not-this-time`, form: { reason: 'price', words: '' } }
      return [accept('2026-03-05', 'Carol Reyes'), decline]
    },
    outcomes: [
      { ...ACCEPTED, ...BOOKED_MAILS },
      { stages: ['not taken'], history: ['not taken'], outbox: ['not-taken-staff'] },
    ],
  },
  {
    name: 'closing as planned, the same form',
    forms: async (app, cookie, email) => [(await closing(app, cookie, email)).asPlanned],
    outcomes: [{ ...CLOSED, history: ['job closed'] }],
  },
  {
    name: 'closing as planned and otherwise',
    forms: async (app, cookie, email) => {
      const { asPlanned, told } = await closing(app, cookie, email)
      return [asPlanned, told('2'), told('3')]
    },
    outcomes: [
      { ...CLOSED, history: ['job closed'] },
      { ...CLOSED, history: ['job told'] },
    ],
  },
  {
    name: 'billing, the same form',
    forms: async (app, cookie, email) => [(await billing(app, cookie, email))({ total: '150.00' })],
    outcomes: [{ stages: ['billed'], bills: [BILL], history: ['billed'], outbox: ['bill'] }],
  },
  {
    name: 'billing with and without something added',
    forms: async (app, cookie, email) => {
      const make = await billing(app, cookie, email)
      return [make({ total: '150.00' }), make({ total: '175.00', ...MORE })]
    },
    outcomes: [BILL, 'bill 175.00 175.00'].map(bill => ({
      ...{ stages: ['billed'], bills: [bill], history: ['billed'], outbox: ['bill'] },
    })),
  },
  {
    name: 'paying, the same form',
    forms: async (app, cookie, email) => [(await billed(app, cookie, email)).pay('150', 'cash')],
    outcomes: [PAID],
  },
  {
    name: 'paying all and paying a part',
    forms: async (app, cookie, email) => {
      const { pay } = await billed(app, cookie, email)
      return [pay('150', 'cash'), pay('40', 'check')]
    },
    outcomes: [PAID, { ...PAID, stages: ['billed'], payments: ['payment 40.00'] }],
  },
  {
    name: 'crediting, for one reason and another',
    forms: async (app, cookie, email) => {
      const { credit } = await billed(app, cookie, email)
      return [credit('Wrong depth'), credit('Wrong bed')]
    },
    outcomes: [CREDITED],
  },
  {
    name: 'crediting and paying',
    forms: async (app, cookie, email) => {
      const { credit, pay } = await billed(app, cookie, email)
      return [credit('Wrong depth'), pay('150', 'cash')]
    },
    outcomes: [
      CREDITED,
      {
        ...{ stages: ['done'], bills: [MEMO], payments: ['payment 150.00'] },
        ...{ history: ['bill credited', 'payment received'], outbox: ['bill-credited', 'payment-received'] },
      },
    ],
  },
]

/** What the database holds of whoever has this mail address; every list in order. */
export async function pictureOf(db: Kysely<Database>, email: string): Promise<Picture> {
  const { rows } = await sql<Picture>`
    with mine as (select quote_request.id, stage from quote_request join customer on customer.id = customer_id
      where email = ${email})
    select
      (select coalesce(jsonb_agg(stage order by id), '[]') from mine) as stages,
      (select count(*)::int from maybe_junk where sending->>'email' = ${email}) as held,
      (select count(*)::int from acceptance join quote on quote.id = quote_id
        where quote_request_id in (select id from mine)) as accepted,
      (select count(*)::int from booking where called_off_at is null and quote_request_id in (select id from mine)) as booked,
      (select count(*)::int from job_closing where quote_request_id in (select id from mine)) as closings,
      (select coalesce(jsonb_agg(concat_ws(' ', kind, total,
        (select sum(amount) from bill_line where bill_id = bill.id)) order by id), '[]') from bill
        where quote_request_id in (select id from mine)) as bills,
      (select coalesce(jsonb_agg(concat_ws(' ', kind, amount) order by id), '[]') from payment
        where quote_request_id in (select id from mine)) as payments,
      (select coalesce(jsonb_agg(verb order by id), '[]') from history
        where quote_request_id in (select id from mine)) as history,
      (select coalesce(jsonb_agg(kind order by kind), '[]') from outbox
        where quote_request_id in (select id from mine)) as outbox`.execute(db)
  return rows[0]!
}
