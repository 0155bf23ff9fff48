import { sql } from 'kysely'
import { findLinkPath } from '../../src/requests/links.ts'
import { offerTimes } from '../../src/visits/pick-time.ts'
import type { TestApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest } from '../helpers/bookings.ts'
import { photo } from '../helpers/photos.ts'
import { sendRequest } from '../helpers/requests.ts'
import { mine, provedAhead, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

/** What becomes of somebody's data: their request, and what they do by its link meanwhile. */
const formsOf = async (app: TestApp, cookie: string, { id, number }: { id: number; number: string }) => {
  await provedAhead(app)
  const { customer_id: customer } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
  return {
    customer,
    erase: { path: `/customers/${customer}/erase`, form: { word: 'erase' }, cookie } as Sent,
    export: { path: `/customers/${customer}/export`, form: {}, cookie } as Sent,
    note: { path: `${own}/note`, form: { note: `Ring twice at ${number}` } } as Sent,
    pick: { path: `${own}/visit`, form: { seen: '0', pick: '2026-03-10T15:00:00Z' } } as Sent,
    send: async (): Promise<Sent> => ({
      path: `${own}/photos`,
      form: {},
      files: { 'photos.0.file': await photo() },
    }),
    deposit: {
      ...{ path: `/queue/${number}/deposit`, cookie },
      form: { nth: '1', depositReceived: '20', depositDay: '2026-03-02', depositWay: 'cash' },
    } as Sent,
  }
}

/** What is left that names anybody, of requests that are erased, and of groups with somebody who is. */
async function leftOf({ db }: TestApp): Promise<string[]> {
  const { rows } = await sql<{ what: string }>`
    with gone as (select id from quote_request where erased_at is not null)
    select 'a photo' as what from request_photo where quote_request_id in (select id from gone)
    union all select 'a note' from quote_request where erased_at is not null and note <> ''
    union all select 'words of history' from history where quote_request_id in (select id from gone) and detail <> '{}'
    union all select 'a mail to be sent' from outbox where quote_request_id in (select id from gone)
      and sent_at is null and coalesce(last_fault not like 'dropped: %', true)
    union all select 'a link' from link where quote_request_id in (select id from gone) and revoked_at is null
    union all select 'a day' from booking where quote_request_id in (select id from gone) and called_off_at is null
    union all select 'half a group' from customer where head_id in (select head_id from customer
      join quote_request on customer_id = customer.id where quote_request.erased_at is not null)
      and customer.erased_at is null`.execute(db)
  return rows.map(({ what }) => what)
}

const ERASED = { stages: [] }
/** The same, of somebody who had accepted. */
const ENDED = { ...ERASED, accepted: -1 }
const BOOKED = {
  ...{ stages: ['booked'], accepted: 1, booked: 1, history: ['accepted', 'day booked'] },
  outbox: ['day-booked', 'day-booked-staff'],
}

/** Erasing somebody, all or nothing, while they or the staff go on. */
export const ERASING_RACES: Race[] = [
  {
    name: 'erasing somebody while they accept',
    forms: async (app, cookie, email) => {
      const job = await quotedRequest(app, '0.25', mine(email))
      const { erase } = await formsOf(app, cookie, job)
      const form = { revision: '1', read: 'yes', day: '2026-03-05', typedName: 'Carol Reyes' }
      return [erase, { path: `${job.path}/accept`, form }]
    },
    besides: leftOf,
    ...{ onlyOne: true, ends: true },
    outcomes: [ERASED, BOOKED],
  },
  {
    name: 'erasing somebody while they write, and send a photo',
    forms: async (app, cookie, email) => {
      const { erase, note, send } = await formsOf(app, cookie, await sendRequest(app, mine(email)))
      return [erase, note, await send()]
    },
    besides: leftOf,
    ends: true,
    outcomes: [ERASED],
  },
  {
    name: 'erasing somebody while they pick a time for a visit',
    forms: async (app, cookie, email) => {
      const request = await sendRequest(app, mine(email))
      const times = ['2026-03-10T15:00:00Z', '2026-03-10T19:00:00Z'].map(time => Temporal.Instant.from(time))
      await offerTimes(app.deps, 1, request.id, times)
      await app.db.deleteFrom('visit').where('quote_request_id', '<>', request.id).execute()
      const { erase, pick } = await formsOf(app, cookie, request)
      return [erase, pick]
    },
    besides: leftOf,
    ends: true,
    outcomes: [ERASED],
  },
  {
    name: 'erasing somebody while their deposit is noted',
    forms: async (app, cookie, email) => {
      const { erase, deposit } = await formsOf(app, cookie, await acceptedRequest(app, '0.25', mine(email)))
      return [erase, deposit]
    },
    besides: leftOf,
    ...{ onlyOne: true, ends: true },
    outcomes: [
      ENDED,
      {
        ...{ stages: ['quoted'], payments: ['deposit 20.00'] },
        ...{ history: ['deposit received'], outbox: ['deposit-received'] },
      },
    ],
  },
  {
    name: 'erasing somebody while their data is taken out',
    forms: async (app, cookie, email) => {
      const forms = await formsOf(app, cookie, await acceptedRequest(app, '0.25', mine(email)))
      return [forms.erase, forms.export]
    },
    besides: leftOf,
    ...{ shows: true, ends: true },
    outcomes: [ENDED],
  },
  {
    name: 'erasing somebody while they are joined with another customer',
    forms: async (app, cookie, email) => {
      const one = await formsOf(app, cookie, await sendRequest(app, mine(email)))
      const other = await formsOf(app, cookie, await sendRequest(app, mine(`other.${email}`)))
      const form = { other: String(other.customer), decision: 'same' }
      return [one.erase, { path: `/customers/${one.customer}/same`, form, cookie }]
    },
    besides: leftOf,
    outcomes: [ERASED],
  },
]
