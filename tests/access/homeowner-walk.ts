import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import { cannotDo, takeBackCannotDo } from '../../src/bookings/cannot-do.ts'
import { withdrawChange } from '../../src/bookings/withdraw-change.ts'
import { askChange } from '../../src/queue/ask-change.ts'
import { noteSent } from '../../src/quotes/note-sent.ts'
import { keepPhoto } from '../../src/rates/photos/photos.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import type { TestApp } from '../helpers/app.ts'
import { billPagesOfAll } from '../helpers/bills.ts'
import {
  acceptedRequest,
  acceptForm,
  changedRequest,
  depositRequest,
  offeredRequest,
  quotedRequest,
} from '../helpers/bookings.ts'
import { holdPast } from '../helpers/photos.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { bedTold, sending, sendRequest, told } from '../helpers/requests.ts'
import type { Form, Listener } from './listening.ts'
import { makeFirm } from './people-pages.ts'

const FINISHES = ['shredded-wood', 'dyed-wood', 'bark-nuggets', 'pine-straw', 'compost', 'stone']
const LARGE: Form = {
  ...BEDS,
  'beds.2.shape': 'volume',
  'beds.2.sizes.volume': '7 cu yd',
  'beds.2.finish': 'dyed-wood',
}
const query = (form: Form) => new URLSearchParams(form as Record<string, string>).toString()

/** Opens everything that a homeowner can without a link: the form, its range, JSON, and what goes wrong there. */
export async function walkOpenRoutes({ get, post, postJson }: Listener, app: TestApp): Promise<void> {
  const open = '/livez /readyz /healthz /ballpark /requests /finishes /sign-in /privacy /'
  for (const path of open.split(' ')) await get(path, path)
  await get('/', `/?${query(LARGE)}&postcode=78701`)
  await get('/request', `/request?${query(LARGE)}`)
  await get('/request', '/request?beds.0.shape=rectangle')
  for (const finish of FINISHES)
    for (const volume of ['1 cu yd', '3 cu yd', '9 cu yd']) {
      const bed = bedTold({ shape: 'volume', sizes: { volume }, finish })
      const answer = await postJson('/ballpark', '/ballpark', {
        beds: [bed],
        extras: ['edging'],
        postcode: '78701',
      })
      expect(answer.status).toBe(200)
    }
  for (const extra of ['nothing', ...(await siteWork(app))])
    for (const body of [
      { ...told(), extras: [extra] },
      { ...told(bedTold({ extras: [extra] })), extras: [] },
    ])
      expect((await postJson('/ballpark', '/ballpark', body)).status).toBe(422)
  for (const body of [
    {},
    { ...told(bedTold({ finish: 'gravel', depth: '90', lying: '40' })), postcode: '00000' },
  ])
    expect((await postJson('/ballpark', '/ballpark', body)).status).toBe(422)
  for (const action of ['range', 'add', 'copy.1', 'remove.0', 'go-on'])
    expect((await post('/ballpark', '/ballpark', { ...LARGE, do: action })).status).toBe(303)
  expect((await post('/ballpark', '/ballpark', { ...LARGE, 'beds.2.sizes.volume': 'much' })).status).toBe(422)
  for (const part of ['live', 'contact'])
    expect((await post('/ballpark', '/ballpark', LARGE, { 'x-part': part })).status).toBe(200)
  expect((await post('/requests', '/requests', { ...LARGE, ...CAROL, phone: '12' })).status).toBe(422)
  for (const way of ['photos', 'last-year', 'look']) {
    await get('/request', `/request?as=${way}`)
    expect((await post('/requests', '/requests', { ...CAROL, as: way, phone: '12' })).status).toBe(422)
  }
  expect((await post('/request/photos', '/request/photos')).status).toBe(422)
  await get('/request/photos/:token', `/request/photos/${await holdPast(app)}`)
  await post('/sign-in', '/sign-in', { email: 'carol@example.com', password: 'no idea' })
  await post('/sign-in/code', '/sign-in/code', { code: '123456' })
  await post('/sign-out', '/sign-out')
  for (const link of ['/set-up', '/new-password', '/sign-in-link', '/invitation']) {
    await get(`${link}/:token`, `${link}/${'A'.repeat(43)}`)
    await post(`${link}/:token`, `${link}/${'A'.repeat(43)}`)
  }
  for (const ask of [get, post]) await ask('/forgot-password', '/forgot-password')
  await get('/calendar/:token', `/calendar/${'A'.repeat(43)}`)
  await postJson('/texts/replies', '/texts/replies', {})
  for (const file of app.deps.assets.files.keys()) await get('/assets/:file', `/assets/${file}`)
  const { id } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const photo = await keepPhoto(app.deps, id, { jpeg: Buffer.from('a photo'), width: 1, height: 1 })
  for (const name of [photo, 'a'.repeat(64)]) await get('/finishes/photos/:name', `/finishes/photos/${name}`)
}

async function siteWork(app: TestApp): Promise<string[]> {
  const { body } = await app.db
    .selectFrom('rate_table')
    .select('body')
    .orderBy('version', 'desc')
    .executeTakeFirstOrThrow()
  return body.extras.filter(extra => !extra.offered).map(extra => extra.slug)
}

/** Goes a whole way by the links: sends, hears of a visit and a price, accepts, chooses a day. */
export async function walkToABooking({ get, post }: Listener, app: TestApp, ownerId: number): Promise<void> {
  const form = { ...LARGE, ...CAROL, submissionKey: randomUUID() }
  const { location: own, status } = await post('/requests', '/requests', form)
  expect(status).toBe(303)
  await get('/r/:token', own)
  const sent = await newest(app)
  const confirm = (await findLinkPath(app.db, app.deps.secretKey, 'email address', sent.id))!
  await get('/c/:token', confirm)
  expect((await post('/c/:token', confirm)).location).toBe(own)
  await get('/c/:token', confirm)
  for (const [field, good] of [
    ['phone', '(512) 555-0188'],
    ['note', 'The gate sticks'],
  ] as const) {
    expect((await post(`/r/:token/${field}`, `${own}/${field}`, { [field]: 'x'.repeat(5000) })).status).toBe(
      422,
    )
    expect((await post(`/r/:token/${field}`, `${own}/${field}`, { [field]: good })).status).toBe(303)
  }
  await walkPhotos({ get, post }, app, own)
  await get('/r/:token/call-off', `${own}/call-off`)
  const { id, number } = sent
  await setVisit(app.deps, ownerId, id, app.deps.now().add({ hours: 48 }))
  await get('/r/:token', own)
  await get('/r/:token/calendar.ics', `${own}/calendar.ics`)
  expect((await post('/r/:token/text', `${own}/text`)).status).toBe(303)
  await app.db
    .updateTable('outbox')
    .set({ sent_at: app.deps.now().toString() })
    .where('kind', '=', 'visit-set')
    .execute()
  await callOffVisit(app.deps, ownerId, id)
  const { bookingPath: link } = await quoteRequest(app, number, { laborHours: '11' })
  await quoteRequest(app, number, {
    laborHours: '12',
    terms: { work: 'new', exempt: '', adjustment: { by: 'share', value: '-0.1', reason: 'Neighbors' } },
  })
  for (const part of ['', '/accept', '/check', '/day', '/not-this-time'])
    await get(`/b/:token${part}`, link + part)
  await get('/b/:token/question', `${link}/question`)
  const reading = (await findLinkPath(app.db, app.deps.secretKey, 'reading', id))!
  await get('/p/:token', reading)
  await get('/p/:token/price.pdf', `${reading}/price.pdf`)
  await get('/b/:token/price.pdf', `${link}/price.pdf`)
  for (const [question, status] of [
    ['', 422],
    ['Do you take checks?', 303],
  ] as const)
    expect((await post('/b/:token/question', `${link}/question`, { question })).status).toBe(status)
  expect((await post('/b/:token/seen', `${link}/seen`)).status).toBe(204)
  const check = (fields: Record<string, unknown>) =>
    post('/b/:token/check', `${link}/check`, acceptForm({ revision: '2', ...fields }) as Form)
  expect((await check({ revision: '1' })).status).toBe(409)
  expect((await check({ typedName: '' })).status).toBe(422)
  expect((await check({ from: '2026-03-16' })).status).toBe(200)
  expect((await check({})).status).toBe(200)
  await post('/b/:token/accept', `${link}/accept`, acceptForm({ revision: '1' }) as Form)
  expect(
    (await post('/b/:token/accept', `${link}/accept`, acceptForm({ revision: '2' }) as Form)).status,
  ).toBe(303)
  await get('/b/:token', link)
  await get('/r/:token', own)
  await get('/b/:token/accepted', `${link}/accepted`)
  await get('/r/:token/accepted', `${own}/accepted`)
  await askChange(app.deps, ownerId, id, 'One more bed')
  await quoteRequest(app, number, { laborHours: '13' })
  await get('/b/:token', link)
}

async function walkPhotos({ get, post }: Pick<Listener, 'get' | 'post'>, app: TestApp, own: string) {
  const [photos, form] = [`${own}/photos`, { 'photos.0.kept': await holdPast(app) }]
  expect((await post('/r/:token/photos/held', `${photos}/held`)).status).toBe(422)
  expect((await post('/r/:token/photos', photos)).status).toBe(422)
  expect((await post('/r/:token/photos', photos, form)).status).toBe(303)
  await get('/r/:token', own)
  const { id } = await app.db
    .selectFrom('request_photo')
    .select('id')
    .orderBy('id', 'desc')
    .executeTakeFirstOrThrow()
  await get('/r/:token/photos/:photo', `${photos}/${id}`)
  await get('/r/:token/photos/:photo/small', `${photos}/${id}/small`)
  expect((await post('/r/:token/photos/:photo/remove', `${photos}/${id}/remove`)).status).toBe(303)
}

function newest(app: TestApp) {
  return app.db
    .selectFrom('quote_request')
    .select(['id', 'number'])
    .orderBy('id', 'desc')
    .executeTakeFirstOrThrow()
}

/** The other ends: a price that isn't taken, a day chosen after accepting, a request called off. */
export async function walkToOtherEnds({ get, post }: Listener, app: TestApp, ownerId: number): Promise<void> {
  const declined = (await quotedRequest(app)).path
  const decline = (reason: string) =>
    post('/b/:token/not-this-time', `${declined}/not-this-time`, { reason, words: '' })
  expect((await decline('')).status).toBe(422)
  expect((await decline('price')).status).toBe(303)
  await get('/b/:token', declined)
  const firm = await quotedRequest(app)
  await makeFirm(app, ownerId, firm.id)
  await get('/b/:token', firm.path)
  await get('/b/:token/papers/:paper', `${firm.path}/papers/1`)
  const { path: accepted } = await acceptedRequest(app)
  await get('/b/:token', accepted)
  expect((await post('/b/:token/day', `${accepted}/day`)).status).toBe(422)
  expect((await post('/b/:token/day', `${accepted}/day`, { day: '2026-03-05' })).status).toBe(303)
  await get('/b/:token', accepted)
  const { ownPath } = await sendRequest(app, sending({ language: 'es' }))
  expect((await post('/r/:token/call-off', `${ownPath}/call-off`, { reason: 'Moving' })).status).toBe(303)
  await get('/r/:token', ownPath)
  // One that is turned down, and one that was until after its mail had gone out.
  const why = { reason: 'full', words: 'Call us in May' } as const
  const [down, back] = [await sendRequest(app), await sendRequest(app)]
  for (const { id } of [down, back]) await cannotDo(app.deps, ownerId, id, why)
  await app.db
    .updateTable('outbox')
    .set({ sent_at: app.deps.now().toString() })
    .where('quote_request_id', '=', back.id)
    .execute()
  await takeBackCannotDo(app.deps, ownerId, back.id)
  for (const path of [down.ownPath, back.ownPath]) await get('/r/:token', path)
  // A price with choices, one with a deposit, and a change that was sent and taken back.
  await get('/b/:token', `${(await offeredRequest(app)).path}?picks=11-1`)
  await get('/b/:token', (await depositRequest(app)).path)
  const changed = await changedRequest(app)
  await noteSent(app.deps, ownerId, changed.id, 2)
  await withdrawChange(app.deps, ownerId, changed.id, 2)
  await get('/b/:token', changed.path)
  // One whose bill is there, and one whose check came back.
  for (const page of await billPagesOfAll(app)) {
    await get('/r/:token/bills/:bill', page)
    await get('/r/:token/bills/:bill/bill.pdf', `${page}/bill.pdf`)
  }
  // One that waits for its visit, and one that waits for its day.
  const { id } = await sendRequest(app)
  await setVisit(app.deps, ownerId, id, app.deps.now().add({ hours: 48 }))
  await acceptedRequest(app)
}
