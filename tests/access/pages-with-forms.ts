import { json } from '../../src/db/json.ts'
import { makeFeed } from '../../src/queue/feed.ts'
import { setToday } from '../../src/rates/new-price.ts'
import { pricesOf } from '../../src/rates/pack-prices.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from '../helpers/app.ts'
import { askedRequest, changedRequest, offeredRequest, weekRequest } from '../helpers/bookings.ts'
import { crewWithDaysOff } from '../helpers/crew.ts'
import { askedHeld, heldRequest } from '../helpers/maybe-junk.ts'
import { offerMade, offerSent, pastCustomer } from '../helpers/offers.ts'
import { beginDraft } from '../helpers/rate-tables.ts'
import { BEDS } from '../helpers/request-form.ts'
import { accountPages } from './account-pages.ts'
import { billPages, billStates } from './bill-pages.ts'
import { jobPages, packPages, workedJobs } from './job-pages.ts'
import { failToSend, gatewayAndFeed, ownWords, useGateway } from './outbox-states.ts'
import {
  customersPage,
  erasePage,
  filePage,
  firmPage,
  paperOf,
  placesPage,
  putInPage,
} from './people-pages.ts'
import { requestsOf } from './requests-at.ts'

type Make = () => string | Promise<string>

const asTheyAre = (...paths: string[]) => Object.fromEntries(paths.map(path => [path, [() => path]]))

/**
 * By the route of each page, where it is open to be tried: once in every state that shows other forms, each made when it
 * is asked for, as trying one ends much. The set-up page is there before all of this.
 */
export function placesOf(app: TestApp, ownerId: number): Record<string, Make[]> {
  const at = requestsOf(app, ownerId)
  const beds = new URLSearchParams(BEDS)
  const own =
    (part = '') =>
    async () =>
      (await at.fresh()).ownPath + part
  const ownOf = (request: () => Promise<{ id: number }>, part: string) => async () =>
    (await findLinkPath(app.db, app.deps.secretKey, 'own page', (await request()).id)) + part
  const link =
    (request: () => Promise<{ path: string }>, part = '') =>
    async () =>
      (await request()).path + part
  const queue =
    (request: () => Promise<{ number: string }>, part = '') =>
    async () =>
      `/queue/${(await request()).number}${part}`
  const begun = (path: string) => () => beginDraft(app, ownerId).then(() => path)
  const stages = [
    at.fresh,
    at.unseen,
    at.visitSet,
    at.leftOut,
    at.measured,
    at.quoted,
    at.accepted,
    at.booked,
    () => askedRequest(app),
    () => weekRequest(app),
    at.unsuited,
    () => changedRequest(app),
    ...workedJobs(app),
    at.calledOff,
    at.turnedDown,
    at.heldWithNews,
    at.junk,
    at.depositPaid,
    at.depositHeld,
    at.ofFirm,
    ...billStates(app),
  ]
  return {
    '/': [() => '/', () => `/?${beds}&postcode=78701`],
    '/request': [() => `/request?${beds}`, () => '/request?as=photos'],
    '/sign-in': [() => '/sign-in?back=/days'],
    '/r/:token': [
      own(),
      () => useGateway(app).then(own()),
      async () => (await at.withPhoto()).ownPath,
      async () => (await heldRequest(app)).ownPath,
    ],
    '/r/:token/call-off': [own('/call-off')],
    '/c/:token': [
      async () => (await findLinkPath(app.db, app.deps.secretKey, 'email address', (await at.fresh()).id))!,
      () => askedHeld(app),
    ],
    '/b/:token': [
      at.quoted,
      at.accepted,
      at.booked,
      () => askedRequest(app),
      () => weekRequest(app),
      () => changedRequest(app),
      () => offeredRequest(app),
      at.depositPaid,
      at.declined,
    ].map(request => link(request)),
    '/b/:token/accepted': [link(at.accepted, '/accepted')],
    '/p/:token': [
      async () => (await findLinkPath(app.db, app.deps.secretKey, 'reading', (await at.quoted()).id))!,
    ],
    '/r/:token/visit': [ownOf(at.visitSet, '/visit')],
    '/r/:token/day': [ownOf(at.booked, '/day')],
    '/r/:token/accepted': [ownOf(at.accepted, '/accepted')],
    ...billPages(app),
    '/queue/:number/accepted': [queue(at.accepted, '/accepted')],
    '/b/:token/accept': [link(at.quoted, '/accept')],
    '/b/:token/not-this-time': [link(at.quoted, '/not-this-time')],
    ...jobPages(app),
    ...asTheyAre('/settings/days', '/password', '/welcome'),
    '/settings/days/crew': [() => crewWithDaysOff(app)],
    '/days/jobs/:number/change': [async () => `/days/jobs/${(await changedRequest(app)).number}/change`],
    '/days': [() => '/days', () => weekRequest(app).then(() => '/days')],
    '/days/:day/rain': [() => at.booked().then(() => '/days/2026-03-05/rain')],
    '/days/calendar': [
      () => '/days/calendar',
      () => makeFeed(app.deps, ownerId).then(() => '/days/calendar'),
    ],
    '/queue': ['', '?q=Carol', '?show=hold', '?show=junk'].map(which => () => `/queue${which}`),
    '/queue/maybe-junk': [
      () => '/queue/maybe-junk',
      () => heldRequest(app).then(() => '/queue/maybe-junk'),
      () =>
        Promise.all([heldRequest(app), heldRequest(app, { name: 'Ann Roe' })]).then(
          () => '/queue/maybe-junk',
        ),
      () => heldRequest(app, {}, true).then(() => '/queue/maybe-junk?show=junk'),
    ],
    '/queue/:number': stages.map(request => queue(request)),
    '/queue/:number/measure': [queue(at.visitSet, '/measure'), queue(at.withStops, '/measure')],
    '/queue/:number/certificate': [queue(at.leftOut, '/certificate')],
    '/queue/:number/stops': [queue(at.withStops, '/stops')],
    '/queue/:number/quote': [queue(at.leftOut, '/quote'), queue(at.quoted, '/quote')],
    '/queue/:number/worksheet': [queue(at.quoted, '/worksheet')],
    '/queue/:number/hand-over': [queue(at.quoted, '/hand-over')],
    '/outbox': [() => '/outbox', () => failToSend(app).then(() => '/outbox')],
    '/settings/messages': [
      () => '/settings/messages',
      () => gatewayAndFeed(app, ownerId).then(() => '/settings/messages'),
    ],
    '/settings/words': [() => '/settings/words', () => ownWords(app).then(() => '/settings/words')],
    '/offers': [() => pastCustomer(app).then(() => '/offers')],
    '/offers/:id': [async () => `/offers/${await offerMade(app, ownerId)}`],
    '/offers-off/:id/:token': [() => offerSent(app, ownerId)],
    '/put-in/:number': [() => putInPage(app), () => putInPage(app, 'same')],
    '/customers': [() => '/customers'],
    '/customers/file/:id': ['faulty', 'good', 'in'].map(state => () => filePage(app, ownerId, state)),
    '/customers/:id/firm': [() => firmPage(app, ownerId)],
    '/customers/:id': [() => customersPage(at.quoted, app), () => customersPage(at.fresh, app, 'apart')],
    '/customers/:id/erase': [
      () => erasePage(app),
      () => erasePage(app, at.booked),
      () => erasePage(app, 'erased'),
    ],
    '/places/:id': [() => placesPage(at.measured, app)],
    '/rates/today/:finish': [() => '/rates/today/compost'],
    '/rates/today/:finish/jobs': [
      async () => `/rates/today/compost/jobs?version=${await priceToday(app, ownerId)}`,
    ],
    '/rates/draft/photo/:finish': [() => '/rates/draft/photo/stone'],
    '/rates/draft/:section': SECTIONS.map(section => () => `/rates/draft/${section}`),
    '/rates/draft/preview': [begun('/rates/draft/preview')],
    '/rates/draft': [begun('/rates/draft')],
    '/rates/versions/:version': [
      () => '/rates/versions/1',
      async () => `/rates/versions/${await letOneWait(app)}`,
    ],
    '/settings/papers': [
      () => '/settings/papers',
      () => paperOf(app, ownerId).then(() => '/settings/papers'),
    ],
    ...asTheyAre('/rates', '/rates/today', '/rates/versions', '/rates/csv', '/put-in', '/customers/file'),
    ...packPages(app),
    ...asTheyAre(
      '/privacy',
      '/access-log',
      '/settings/keeping',
      '/settings/letterhead',
      '/settings/prices',
      '/how-is-it-doing',
      '/settings/card',
    ),
    // Last of all, as they end every session of the owner.
    ...accountPages(app, ownerId),
  }
}

/** One of each kind; those that may take out what others need come last. */
const SECTIONS = [
  ...[
    'finish.compost',
    'finish-packs.compost',
    'extra.edging',
    'extra-packs.edging',
    'prices',
    'travel',
    'tax',
  ],
  ...['labour', 'carriers', 'costs', 'beds', 'ranges', 'cautions', 'extras', 'finishes'],
]

/** A version of the rates that waits for its day, ten days ahead. Gives its number. */
async function letOneWait({ db, deps }: TestApp): Promise<number> {
  const newest = await db
    .selectFrom('rate_table')
    .selectAll()
    .orderBy('version', 'desc')
    .executeTakeFirstOrThrow()
  const { version, body, made_by } = newest
  const [made_at, in_force_from] = [deps.now().toString(), deps.now().add({ hours: 240 }).toString()]
  const waiting = { version: version + 1, body: json(body), made_at, made_by, in_force_from }
  await db.insertInto('rate_table').values(waiting).execute()
  return version + 1
}

/** A version of the rates in which compost costs what it did not, as no request was priced with it yet. Gives its number. */
async function priceToday(app: TestApp, ownerId: number): Promise<number> {
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const compost = body.finishes.find(({ slug }) => slug === 'compost')!
  const [{ name, each } = { name: '', each: '' }] = pricesOf(compost, body.units)
  const prices = { [name]: String(Number(each) + 1) }
  return (await setToday(app.deps, ownerId, version, 'compost', { prices, soldOut: false }))!
}
