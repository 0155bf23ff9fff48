import { randomUUID } from 'node:crypto'
import { signTime } from '../../src/junk/form-time.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { sendRequest } from '../helpers/requests.ts'
import { mine, type Race } from './race.ts'
import { ACCOUNT_RACES } from './races-of-accounts.ts'
import { DAY_RACES } from './races-of-days.ts'
import { DEPOSIT_RACES } from './races-of-deposits.ts'
import { ERASING_RACES } from './races-of-erasing.ts'
import { GOODS_RACES } from './races-of-goods.ts'
import { HELD_RACES } from './races-of-held.ts'
import { MONEY_RACES } from './races-of-money.ts'
import { PAYMENT_RACES } from './races-of-payments.ts'
import { PRICE_RACES } from './races-of-prices.ts'
import { RATE_RACES } from './races-of-rates.ts'
import { SETTING_RACES } from './races-of-settings.ts'
import { VISIT_RACES } from './races-of-visits.ts'
import type { Sent } from './two-services.ts'

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

const sending = (app: TestApp, email: string, submissionKey: string): Sent => {
  const begun = signTime(app.deps.secretKey, submissionKey, app.deps.now().subtract({ minutes: 5 }))
  const who = { ...CAROL, name: `Carol ${email}`, phone: '', email, note: `To ${email}` }
  return { path: '/requests', form: { ...BEDS, ...who, submissionKey, begun } }
}
const SENT = { stages: ['new'], history: ['sent'], outbox: ['request-arrived', 'request-received'] }
const HELD = { stages: [], held: 1 }

/** Taking in, confirming, joining and accepting; then all that goes on from there, each subject in a file of its own. */
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
    name: 'accepting and canceling',
    forms: async (app, _, email) => {
      const { id, accept } = await acceptance(app, email)
      const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
      return [accept('2026-03-05', 'Carol Reyes'), { path: `${own}/call-off`, form: { reason: 'Moving' } }]
    },
    outcomes: [
      { stages: ['called off'], history: ['called off'], outbox: ['called-off-staff', 'canceled'] },
      {
        ...{ stages: ['called off'], accepted: 1, history: ['accepted', 'called off', 'day booked'] },
        outbox: ['called-off-staff', 'canceled', 'day-booked', 'day-booked-staff'],
      },
    ],
  },
  ...HELD_RACES,
  ...MONEY_RACES,
  ...DEPOSIT_RACES,
  ...PAYMENT_RACES,
  ...VISIT_RACES,
  ...DAY_RACES,
  ...PRICE_RACES,
  ...ACCOUNT_RACES,
  ...RATE_RACES,
  ...SETTING_RACES,
  ...ERASING_RACES,
  ...GOODS_RACES,
]
